// Where a zone's plan stands: not planned, waiting, running with a way to cancel it, cancelled, failed.
import type { JSX } from 'preact'
import { useEffect } from 'preact/hooks'
import type { PlanNews } from '../../office_api/heat.ts'
import { Mark } from '../parts/mark.tsx'
import { planning as words } from '../words/en_heat_office.ts'
import { ActWords } from './forms.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Band, Empty, SeenPage } from './page_parts.tsx'
import { useAct } from './use_act.ts'

const LOOK_EVERY_MS = 1000

type PartProps = { digest: string; plan: PlanNews; refresh: () => void }

/** All but a plan that is done: that one shows its answer. */
export function HeatPlanPart(props: PartProps): JSX.Element {
  switch (props.plan.state) {
    case 'waiting':
    case 'running':
      return <Running {...props} />
    case 'cancelled':
      return <Offer {...props} said={words.cancelled} next="" />
    case 'failed':
      return <Failed {...props} />
    default:
      return <Offer {...props} said={words.none} next={words.noneNext} />
  }
}

type OfferProps = PartProps & { said: string; next: string; faults?: readonly string[] }

function Offer({ digest, plan, refresh, said, next, faults = [] }: OfferProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const again = plan.state === 'failed' || plan.state === 'cancelled'
  return (
    <section aria-label={words.title}>
      <Empty words={said} next={next}>
        {faults.map((fault) => (
          <p key={fault} class="in-stop">
            {fault}
          </p>
        ))}
        <ActWords state={act.state} />
        <button
          type="button"
          class="key key-main"
          aria-disabled={act.state.at === 'working' ? 'true' : undefined}
          onClick={() => void act.run(() => desk.api.planHeat(digest), refresh)}
        >
          <span>{again ? words.again : words.key}</span>
        </button>
      </Empty>
    </section>
  )
}

/** Why it failed stands with the plan itself. */
function Failed(props: PartProps): JSX.Element {
  const { desk } = useOffice()
  const { seen } = useRoute(() => desk.api.heatPlan(props.digest), 0, `failed ${props.digest}`)
  const faults = (seen.value?.faults ?? []).map(({ field, mend }) =>
    field === '' ? mend : `${field}: ${mend}`,
  )
  return <Offer {...props} said={words.failed} next={words.failedNext} faults={faults} />
}

/** Asks once a second while it is shown; the page is asked anew when the state turns. */
function Running({ digest, plan, refresh }: PartProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const { seen, refresh: lookAgain } = useRoute(
    () => desk.api.heatPlan(digest),
    LOOK_EVERY_MS,
    `plan ${digest}`,
  )
  const state = seen.value?.state
  useEffect(() => {
    if (state !== undefined && state !== 'waiting' && state !== 'running') refresh()
  }, [state])
  return (
    <section class="hz-planning" aria-label={words.title}>
      <SeenPage seen={{ value: plan, ...seen }} refresh={lookAgain}>
        {(news) => <Progress doing={news.doing} share={news.share} waits={news.state === 'waiting'} />}
      </SeenPage>
      <ActWords state={act.state} />
      <button
        type="button"
        class="key key-plain"
        onClick={() => void act.run(() => desk.api.cancelPlan(digest), lookAgain)}
      >
        <span>{words.cancel}</span>
      </button>
    </section>
  )
}

/** The figures stand until somebody has the present model plan it. */
export function Older({ digest, refresh }: Omit<PartProps, 'plan'>): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  return (
    <div class="o-silent">
      <Band mark="caution">{words.older}</Band>
      <ActWords state={act.state} />
      <button
        type="button"
        class="key key-plain"
        onClick={() => void act.run(() => desk.api.planHeat(digest), refresh)}
      >
        <span>{words.again}</span>
      </button>
    </div>
  )
}

function Progress({ doing, share, waits }: { doing: string; share: number; waits: boolean }): JSX.Element {
  return (
    <>
      <p role="status" class="o-line">
        <Mark name="clock" />
        <span>{waits ? words.waiting : words.running(doing, share)}</span>
      </p>
      <progress aria-label={words.progress} max={1} value={waits ? 0 : share} />
    </>
  )
}
