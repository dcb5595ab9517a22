// The editor of a heat zone: the joint to scale, its section, and every member as a field; kept as another zone.
import type { JSX } from 'preact'
import { useMemo, useState } from 'preact/hooks'
import type { Json } from '../../core/canonical.ts'
import { jointOf } from '../../core/views/office_heat_document.ts'
import type { ZoneFault } from '../../core/views/office_heat_fields.ts'
import type { Thing } from '../../core/views/office_heat_place.ts'
import { NEW_ZONE } from '../../core/views/office_heat_template.ts'
import type { Answer } from '../../office_api/answer.ts'
import { editing as words } from '../words/en_heat_form.ts'
import { heat } from '../words/en_heat_office.ts'
import { picture } from '../words/en_heat_plan.ts'
import { ActWords } from './forms.tsx'
import { useDraft } from './heat_draft.ts'
import { HeatEditorParts } from './heat_editor_parts.tsx'
import { HeatFaults } from './heat_faults.tsx'
import { fieldIdOf } from './heat_fields.tsx'
import { HeatJointEditor } from './heat_joint_editor.tsx'
import { HeatSection } from './heat_section.tsx'
import { zoneName } from './heat_zone.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'
import { faultsOf, useAct } from './use_act.ts'
import './office_heat.css'
import './office_heat_form.css'

export function HeatChangeScreen({ digest }: { digest: string }): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(() => desk.api.heatZone(digest), 0, `heat zone ${digest}`)
  return (
    <>
      <p>
        <a href={linkTo.heatZone(digest)}>{heat.back}</a>
      </p>
      <SeenPage seen={seen} refresh={refresh}>
        {({ document }) => (
          <HeatEditor first={document} title={words.title(zoneName(document))} note={words.note} />
        )}
      </SeenPage>
    </>
  )
}

export function HeatNewScreen(): JSX.Element {
  return (
    <>
      <p>
        <a href={linkTo.heat}>{heat.all}</a>
      </p>
      <HeatEditor first={NEW_ZONE} title={words.newTitle} note={words.newNote} />
    </>
  )
}

function useKeep() {
  const { desk, go } = useOffice()
  const act = useAct()
  const keepOf =
    (document: Json, plan: boolean) =>
    async (stop: AbortSignal): Promise<Answer<string>> => {
      const taken = await desk.api.addHeatZone({ document }, stop)
      if (taken.kind !== 'value') return taken
      const { digest } = taken.value
      // A zone that is kept but not asked to be planned is no loss: its page offers the plan.
      if (plan) await desk.api.planHeat(digest)
      return { kind: 'value', value: digest }
    }
  const keep = (document: Json, plan: boolean) =>
    act.run(keepOf(document, plan), (digest) => go(linkTo.heatZone(digest)))
  return { act, keep }
}

type EditorProps = { first: Json; title: string; note: string }

function HeatEditor({ first, title, note }: EditorProps): JSX.Element {
  const draft = useDraft(first)
  const joint = useMemo(() => jointOf(draft.document), [draft.document])
  const { act, keep } = useKeep()
  const [chosen, setChosen] = useState<Thing>()
  const told = faultsOf(act)
  const faults: readonly ZoneFault[] = told.map(({ field, message }) => ({ field, mend: message }))
  const working = act.state.at === 'working'
  return (
    <article class="o-stack">
      <Head title={title}>
        <button
          type="button"
          class="key key-plain"
          aria-disabled={draft.canUndo ? undefined : 'true'}
          onClick={draft.undo}
        >
          <span>{words.undo}</span>
        </button>
        <button type="button" class="key key-plain" onClick={() => void keep(draft.document, false)}>
          <span>{words.keep}</span>
        </button>
        <button
          type="button"
          class="key key-main"
          aria-disabled={working ? 'true' : undefined}
          onClick={() => void keep(draft.document, true)}
        >
          <span>{working ? words.keeping : words.keepAndPlan}</span>
        </button>
      </Head>
      <p>{note}</p>
      <p>
        <strong>{heat.first}</strong>
      </p>
      {told.length > 0 ? <HeatFaults faults={told} onTo={toField} /> : <ActWords state={act.state} />}
      <div class="hz-editor">
        <div class="hz-drawn">
          <section class="o-stack" aria-label={picture.joint}>
            <h2>{picture.joint}</h2>
            <HeatJointEditor
              document={draft.document}
              joint={joint}
              chosen={chosen}
              onChoose={setChosen}
              onMove={draft.change}
            />
          </section>
          <HeatSection joint={joint} />
        </div>
        <HeatEditorParts {...{ draft, joint, faults, chosen, onChoose: setChosen }} />
      </div>
    </article>
  )
}

/** To the field that a fault names, or the nearest that holds it; what lies folded is opened. */
function toField(field: string): void {
  const found = fieldIdOf(field)
    .map((id) => document.getElementById(id))
    .find((one) => one !== null)
  const folded = found?.closest('details')
  if (folded) folded.open = true
  const input = found?.matches('input, select') ? found : found?.querySelector('input, select')
  if (input instanceof HTMLElement) input.focus()
}
