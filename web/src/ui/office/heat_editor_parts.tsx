// The parts of the zone's form, each folded until it is wanted: its own, one for each layer, pad, sensor, neighbour.
import type { ComponentChildren, JSX } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import type { Json } from '../../core/canonical.ts'
import { at, type Joint, withAt } from '../../core/views/office_heat_document.ts'
import {
  bondFields,
  earlierFields,
  type FieldGroup,
  faultsAt,
  layerFields,
  neighbourFields,
  padFields,
  sensorFields,
  surroundingFields,
  untouched,
  type ZoneFault,
  zoneFields,
} from '../../core/views/office_heat_fields.ts'
import { added, addedEarlier, addedLayer, removed, type Thing } from '../../core/views/office_heat_place.ts'
import { editing as words } from '../words/en_heat_form.ts'
import type { Draft } from './heat_draft.ts'
import { HeatFields } from './heat_fields.tsx'
import { thingName } from './heat_joint_editor.tsx'
import { isSame, THING_KINDS } from './heat_things.tsx'

type FormProps = { draft: Draft; joint: Joint; faults: readonly ZoneFault[] }
type PartsProps = FormProps & {
  chosen: Thing | undefined
  onChoose: (thing: Thing | undefined) => void
}

export function HeatEditorParts(props: PartsProps): JSX.Element {
  const { draft, faults } = props
  const { document } = draft
  const kept = untouched(document)
  return (
    <div class="hz-parts">
      <Part name={words.parts.zone} groups={zoneFields()} {...{ draft, faults }} open />
      <Part name={words.parts.bondline} groups={bondFields(document)} {...{ draft, faults }} />
      <Layers {...props} />
      {THING_KINDS.map((kind) => (
        <Things key={kind} kind={kind} {...props} />
      ))}
      <EarlierRuns {...props} />
      <Part name={words.parts.around} groups={surroundingFields()} {...{ draft, faults }} />
      {kept.length > 0 && <p class="o-note">{words.kept(kept)}</p>}
    </div>
  )
}

type PartProps = {
  name: string
  groups: readonly FieldGroup[]
  draft: Draft
  faults: readonly ZoneFault[]
  open?: boolean
  children?: ComponentChildren
}

/** Fields that are folded together, open where one of them has a fault. */
function Part({ name, groups, draft, faults, open = false, children }: PartProps): JSX.Element {
  const faulty = groups.some((group) => faultsAt(faults, group.path).length > 0)
  return (
    <Fold name={name} open={open || faulty} faulty={faulty}>
      <HeatFields document={draft.document} groups={groups} faults={faults} onType={draft.change} />
      {children}
    </Fold>
  )
}

type FoldProps = { name: string; open: boolean; faulty: boolean; children: ComponentChildren }

/** Opens when it is chosen or has a fault; closed by hand it stays closed. */
function Fold({ name, open, faulty, children }: FoldProps): JSX.Element {
  const details = useRef<HTMLDetailsElement>(null)
  useEffect(() => {
    if (open && details.current) details.current.open = true
  }, [open])
  return (
    <details ref={details} class="hz-fold">
      <summary class={faulty ? 'in-stop' : ''}>{name}</summary>
      {children}
    </details>
  )
}

function Layers({ draft, joint: { layers }, faults }: FormProps): JSX.Element {
  const { document, change } = draft
  return (
    <section class="o-stack" aria-label={words.parts.layers}>
      <h2>{words.parts.layers}</h2>
      {layers.map((layer, number) => {
        const name = words.thing.layers(layer.name)
        const remove = (): void =>
          change(withAt(document, ['layers', number], undefined), `remove layer ${number}`)
        return (
          <Part key={number} name={name} groups={layerFields(document, number)} {...{ draft, faults }}>
            <PlainKey name={words.remove(name)} onPress={remove} />
          </Part>
        )
      })}
      <PlainKey
        name={words.add.layers}
        onPress={() => change(addedLayer(document), `add layer ${layers.length}`)}
      />
    </section>
  )
}

/** What earlier runs on the same profile have put into it, of this zone and of those beside it. */
function EarlierRuns({ draft, faults }: FormProps): JSX.Element {
  const { document, change } = draft
  const found = at(document, ['earlier_runs'])
  const runs = Array.isArray(found) ? (found as readonly Json[]) : []
  return (
    <section class="o-stack" aria-label={words.parts.earlier}>
      <h2>{words.parts.earlier}</h2>
      {runs.map((_, number) => {
        const name = words.thing.earlier(number + 1)
        const remove = (): void =>
          change(withAt(document, ['earlier_runs', number], undefined), `remove earlier ${number}`)
        return (
          <Part key={number} name={name} groups={earlierFields(document, number)} {...{ draft, faults }}>
            <PlainKey name={words.remove(name)} onPress={remove} />
          </Part>
        )
      })}
      <PlainKey
        name={words.add.earlier}
        onPress={() => change(addedEarlier(document), `add earlier ${runs.length}`)}
      />
    </section>
  )
}

function groupsOf(document: Json, { kind, number }: Thing): readonly FieldGroup[] {
  if (kind === 'pads') return padFields(number)
  return kind === 'sensors' ? sensorFields(document, number) : neighbourFields(document, number)
}

function Things(props: PartsProps & { kind: Thing['kind'] }): JSX.Element {
  const { kind, draft, joint, faults, chosen, onChoose } = props
  const { document, change } = draft
  const count = joint[kind].length
  const add = (): void => {
    change(added(document, kind), `add ${kind} ${count}`)
    onChoose({ kind, number: count })
  }
  const remove = (thing: Thing): void => {
    onChoose(undefined)
    change(removed(document, thing), `remove ${kind} ${thing.number}`)
  }
  return (
    <section class="o-stack" aria-label={words.parts[kind]}>
      <h2>{words.parts[kind]}</h2>
      {joint[kind].map((_, number) => {
        const thing: Thing = { kind, number }
        const name = thingName(joint, thing)
        const groups = groupsOf(document, thing)
        return (
          <Part key={number} {...{ name, groups, draft, faults }} open={isSame(chosen, thing)}>
            <PlainKey name={words.remove(name)} onPress={() => remove(thing)} />
          </Part>
        )
      })}
      <PlainKey name={words.add[kind]} onPress={add} />
    </section>
  )
}

function PlainKey({ name, onPress }: { name: string; onPress: () => void }): JSX.Element {
  return (
    <button type="button" class="key key-plain" onClick={onPress}>
      <span>{name}</span>
    </button>
  )
}
