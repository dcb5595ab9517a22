// A heat zone: its plan's answer on top, the field over time, curves with release, figures, and where it is pinned.
import type { JSX } from 'preact'
import { useMemo, useState } from 'preact/hooks'
import type { Json } from '../../core/canonical.ts'
import type { PlanAnswer } from '../../core/views/office_heat_answer.ts'
import { at, type Joint, jointOf } from '../../core/views/office_heat_document.ts'
import { extentOf } from '../../core/views/office_heat_place.ts'
import type { HeatZone } from '../../office_api/heat.ts'
import { pins, planning, heat as words } from '../words/en_heat_office.ts'
import { curves, picture } from '../words/en_heat_plan.ts'
import { grouped } from '../words/format.ts'
import { HeatAnswer, HeatFigures, HeatSpots } from './heat_answer.tsx'
import { HeatCurves } from './heat_curves.tsx'
import { HeatField } from './heat_field.tsx'
import { HeatJoint } from './heat_joint.tsx'
import { PinSheet } from './heat_pin.tsx'
import { HeatPlanPart, Older } from './heat_plan_part.tsx'
import { HeatRemove } from './heat_remove.tsx'
import { HeatTables } from './heat_tables.tsx'
import { JointThings, Signs } from './heat_things.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'
import './office_heat.css'

export function HeatZoneScreen({ digest }: { digest: string }): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(() => desk.api.heatZone(digest), 0, `heat zone ${digest}`)
  return (
    <>
      <p>
        <a href={linkTo.heat}>{words.all}</a>
      </p>
      <SeenPage seen={seen} refresh={refresh}>
        {(zone) => <Zone zone={zone} refresh={refresh} />}
      </SeenPage>
    </>
  )
}

export function zoneName(document: Json): string {
  return String(at(document, ['name']) ?? at(document, ['id']) ?? '')
}

function Zone({ zone, refresh }: { zone: HeatZone; refresh: () => void }): JSX.Element {
  const joint = useMemo(() => jointOf(zone.document), [zone.document])
  const [pinning, setPinning] = useState(false)
  const done = zone.plan.state === 'done'
  return (
    <article class="o-stack">
      <Head title={zoneName(zone.document)}>
        {done && (
          <button type="button" class="key key-plain" onClick={() => setPinning(true)}>
            <span>{pins.pin}</span>
          </button>
        )}
        <a class="key key-plain" href={linkTo.heatChange(zone.digest)}>
          <span>{planning.change}</span>
        </a>
      </Head>
      <p class="o-note">
        {at(zone.document, ['invented']) === true && `${words.invented} `}
        <span class="o-hex">{grouped(zone.digest.slice(0, 16))}</span>
      </p>
      <Remarks remarks={zone.remarks} />
      {done && !zone.plan.current && <Older digest={zone.digest} refresh={refresh} />}
      {done ? (
        <Answer zone={zone} joint={joint} />
      ) : (
        <>
          <p>
            <strong>{words.first}</strong>
          </p>
          <HeatPlanPart digest={zone.digest} plan={zone.plan} refresh={refresh} />
          <Drawn joint={joint} />
        </>
      )}
      <HeatRemove digest={zone.digest} />
      {pinning && <PinSheet zone={zone} onClose={() => setPinning(false)} />}
    </article>
  )
}

function Remarks({ remarks }: { remarks: readonly string[] }): JSX.Element | null {
  if (remarks.length === 0) return null
  return (
    <details class="o-details">
      <summary>{planning.remarks(remarks.length)}</summary>
      <ul class="o-plain">
        {remarks.map((remark) => (
          <li key={remark}>{remark}</li>
        ))}
      </ul>
    </details>
  )
}

function Drawn({ joint }: { joint: Joint }): JSX.Element {
  return (
    <section class="o-stack" aria-label={picture.joint}>
      <h2>{picture.joint}</h2>
      <p class="o-note">{picture.heatedSide}</p>
      <figure role="img" aria-label={picture.joint}>
        <HeatJoint joint={joint}>
          <JointThings joint={joint} extent={extentOf(joint)} />
        </HeatJoint>
      </figure>
      <Signs />
    </section>
  )
}

function Answer({ zone, joint }: { zone: HeatZone; joint: Joint }): JSX.Element {
  const { desk } = useOffice()
  const { digest } = zone
  const { seen, refresh } = useRoute(() => desk.api.heatPlan(digest), 0, `answer ${digest}`)
  return (
    <SeenPage seen={seen} refresh={refresh}>
      {({ answer }) => answer && <Answered {...{ zone, joint, answer }} />}
    </SeenPage>
  )
}

type AnsweredProps = { zone: HeatZone; joint: Joint; answer: PlanAnswer }

/** Before anybody moves the slider: the moment at which the release begins. */
function firstMoment({ heat_until_min, workable_min }: PlanAnswer): number {
  const moments = [heat_until_min, workable_min].filter((one) => one !== 'never')
  return Number(moments[0] ?? 0)
}

function Answered({ zone, joint, answer }: AnsweredProps): JSX.Element {
  const { desk } = useOffice()
  const [at_min, setAt] = useState(firstMoment(answer))
  const field = useRoute(() => desk.api.heatField(zone.digest), 0, `field ${zone.digest}`)
  return (
    <>
      <HeatAnswer answer={answer} change={linkTo.heatChange(zone.digest)} />
      <section class="o-stack" aria-label={picture.title}>
        <h2>{picture.title}</h2>
        <SeenPage seen={field.seen} refresh={field.refresh}>
          {(file) => <HeatField {...{ file, joint, answer, at_min }} onTime={setAt} />}
        </SeenPage>
        <HeatSpots answer={answer} />
      </section>
      <section class="o-stack" aria-label={curves.title}>
        <h2>{curves.title}</h2>
        <HeatCurves answer={answer} joint={joint} at_min={at_min} />
      </section>
      <HeatFigures answer={answer} document={zone.document} />
      <HeatTables answer={answer} joint={joint} />
    </>
  )
}
