// Heat runs of one job.
import type { ComponentChildren, JSX } from 'preact'
import { useRef } from 'preact/hooks'
import type { CardState } from '../../core/state.ts'
import type { CardPlan } from '../../core/views/card_plans.ts'
import type { JobLog } from '../../core/views/office_log.ts'
import type { RunView } from '../../core/views/office_runs.ts'
import { runProfile } from '../../core/views/run_profile.ts'
import type { JudgedRun } from '../../office_api/readings.ts'
import { HeatProfile } from '../parts/heat_profile.tsx'
import { Mark } from '../parts/mark.tsx'
import { duration, listed, when, wholeMinutes } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { PART } from './job_jump.tsx'
import { useSecond } from './office_clock.tsx'
import { personName, useOffice, useRoute } from './office_desk.ts'
import { ReadingsRun } from './readings_run.tsx'
import { figure } from './say_what.ts'

type RunsProps = {
  runs: readonly RunView[]
  log: JobLog
  state: CardState
  /** Pinned to the job's zones; undefined while they are not heard. */
  plans: readonly CardPlan[] | undefined
  refresh: () => void
}

/** Asked for again when the log has grown; until the answer is there, what was said before stands. */
function useVerdicts(log: JobLog): readonly JudgedRun[] | undefined {
  const { desk } = useOffice()
  const before = useRef<readonly JudgedRun[] | undefined>(undefined)
  const key = `verdicts ${log.job} ${log.items.length}`
  const { seen } = useRoute(() => desk.api.verdicts(log.job), 0, key)
  before.current = seen.value ?? before.current
  return before.current
}

export function JobRuns({ runs, log, state, plans, refresh }: RunsProps): JSX.Element {
  const verdicts = useVerdicts(log)
  return (
    <section class="o-part" id={PART.runs} tabIndex={-1} aria-label={o.job.runs}>
      <h2>{o.job.runs}</h2>
      {runs.length === 0 && <p class="soft">{o.job.noRuns}</p>}
      {runs.map((run) => (
        <Run key={run.run} run={run}>
          <ReadingsRun
            log={log}
            state={state}
            run={run}
            verdict={verdicts?.find((one) => one.run === run.run)}
            plans={plans}
            onRead={refresh}
          />
        </Run>
      ))}
    </section>
  )
}

function Run({ run, children }: { run: RunView; children: ComponentChildren }): JSX.Element {
  const { shop } = useOffice()
  const now_ms = useSecond()
  const hot = run.state === 'hot' || run.state === 'aborted_hot'
  return (
    <article class="o-run" aria-label={o.board.run(run.zone, o.what.purpose(run.purpose))}>
      <h3 class={hot ? 'in-hot' : ''}>
        <Mark name={hot ? 'hot' : 'safe'} />
        <span>
          {o.board.run(run.zone, o.what.purpose(run.purpose))}: {o.job.runState[run.state]}
        </span>
      </h3>
      <div class="o-profile">
        <HeatProfile progress={runProfile(run.soFar, now_ms).share} />
      </div>
      <p>
        {hot
          ? o.job.runOn(duration(wholeMinutes(now_ms - run.on_ms)))
          : o.job.runWas(when(run.on_ms, now_ms))}
        , {personName(shop, run.by)}. {o.job.reached(listed(run.moments.map(o.what.moment)))}
      </p>
      {run.soak_wanted_ms > 0 && <p>{o.job.soak(duration(run.soak_ms), duration(run.soak_wanted_ms))}</p>}
      <Sensors run={run} />
      <Pads run={run} />
      <RunLimits run={run} />
      {children}
    </article>
  )
}

function Sensors({ run }: { run: RunView }): JSX.Element {
  return (
    <ul class="o-cells">
      {run.sensors.map((sensor) => (
        <li key={sensor.id}>
          <small>{sensor.name}</small>
          <span class="num">{sensor.last ? figure(sensor.last) : o.job.noReading}</span>
        </li>
      ))}
    </ul>
  )
}

function Pads({ run }: { run: RunView }): JSX.Element {
  const word = (pad: RunView['pads'][number]): string => {
    if (pad.lifted) return o.job.padUp
    return pad.down ? o.job.padDown : o.job.padOn
  }
  return <p>{listed(run.pads.map((pad) => `${pad.name} ${word(pad)}`))}.</p>
}

function RunLimits({ run }: { run: RunView }): JSX.Element | null {
  if (run.lagging_min === undefined || run.leading_max === undefined) return null
  return (
    <p class="o-note">
      {o.job.limits(figure(run.lagging_min), figure(run.leading_max))}{' '}
      {run.peak && o.job.peak(figure(run.peak), run.peakSensor)} {o.job.advice}
    </p>
  )
}
