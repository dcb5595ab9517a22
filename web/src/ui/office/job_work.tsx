// Heat runs and the tally of one job.
import type { ComponentChildren, JSX } from 'preact'
import { useRef } from 'preact/hooks'
import type { CardState, PositionState } from '../../core/state.ts'
import type { CardPlan } from '../../core/views/card_plans.ts'
import { besideDamaged } from '../../core/views/hole_neighbours.ts'
import type { JobLog } from '../../core/views/office_log.ts'
import type { RunView } from '../../core/views/office_runs.ts'
import type { GroupTally, TallyView } from '../../core/views/office_tally.ts'
import { runProfile } from '../../core/views/run_profile.ts'
import { drawingUrl } from '../../office_api/client.ts'
import type { JudgedRun } from '../../office_api/readings.ts'
import { FastenerPicture } from '../parts/fastener_map_picture.tsx'
import { mapRivet } from '../parts/fastener_map_words.ts'
import { HeatProfile } from '../parts/heat_profile.tsx'
import { Mark } from '../parts/mark.tsx'
import { RivetMark } from '../parts/rivet_mark.tsx'
import { ladder, marks } from '../words/en_kinds.ts'
import { duration, listed, when, wholeMinutes } from '../words/format.ts'
import { o } from '../words/office_en.ts'
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
    <section class="o-part" aria-label={o.job.runs}>
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

export function JobTally({ tally }: { tally: TallyView }): JSX.Element {
  const { owed } = tally
  const positions = tally.groups.flatMap((group) => group.positions)
  const beside = tally.drawing ? besideDamaged(positions, tally.drawing.map) : []
  return (
    <section class="o-part" aria-label={o.job.tally}>
      <div class="o-part-head">
        <h2>{o.job.tally}</h2>
        <small>{o.job.tallyTotal(tally.total)}</small>
      </div>
      {tally.total === 0 ? <p class="soft">{o.job.noTally}</p> : <ToAccount n={tally.toAccountFor} />}
      {tally.drawing && (
        <FastenerPicture
          map={tally.drawing.map}
          src={drawingUrl(tally.drawing.sha256)}
          rivets={positions.map((at) => mapRivet(at, undefined, false, beside))}
          beside={beside}
          name={o.job.tally}
          width_px={MAP_PX}
        />
      )}
      {tally.groups.map((group) => (
        <Group key={group.group} group={group} shown={namesDrawn(tally)} />
      ))}
      {owed.head + owed.mandrel + owed.shank > 0 && <p>{o.job.owed(owed.head, owed.mandrel, owed.shank)}</p>}
      {tally.damagedHoles.length > 0 && <p class="in-stop">{o.job.damaged(listed(tally.damagedHoles))}</p>}
    </section>
  )
}

function ToAccount({ n }: { n: number }): JSX.Element {
  if (n === 0) return <p>{o.job.allAccounted}</p>
  return (
    <p class="in-stop">
      <strong class="o-big num">{n}</strong> {o.job.toAccount}
    </p>
  )
}

const MAP_PX = 440

/** Positions that the map shows; the others stand in rows. */
function namesDrawn({ drawing }: TallyView): ReadonlySet<string> {
  return new Set(drawing?.map.places.map((place) => place.id))
}

type GroupProps = { group: GroupTally; shown: ReadonlySet<string> }

function Group({ group, shown }: GroupProps): JSX.Element {
  const rest = group.positions.filter((one) => !shown.has(one.position))
  const counts = group.counts.map((one) => o.job.inPlace(one.count, ladder[one.place]))
  return (
    <div class="o-group">
      <p>
        <strong>{group.name}</strong>: {listed(counts)}
      </p>
      {rest.length > 0 && (
        <ul class="o-rivets">
          {rest.map((position) => (
            <Rivet key={position.position} position={position} />
          ))}
        </ul>
      )}
    </div>
  )
}

function Rivet({ position }: { position: PositionState }): JSX.Element {
  const damaged = position.place !== 'lost' && position.marks.some((mark) => mark.mark === 'damaged_hole')
  return (
    <li class={position.place === 'lost' || damaged ? 'in-stop' : ''}>
      <RivetMark name={damaged ? 'damaged_hole' : position.place} />
      <strong>{position.position}</strong>
      <small>{damaged ? marks.damaged_hole : ladder[position.place]}</small>
    </li>
  )
}
