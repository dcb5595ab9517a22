// The cells of a board row: what it waits for, heat and cure, phones, deviations and findings.
import type { JSX } from 'preact'
import { type Wait, waitsOf } from '../../core/views/office_board.ts'
import { runProfile } from '../../core/views/run_profile.ts'
import type { BoardDevice, BoardJob, BoardRun } from '../../office_api/rows.ts'
import { HeatProfile } from '../parts/heat_profile.tsx'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { duration, when, wholeMinutes } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { ago } from './ago.ts'

const MOST_HOLDS = 3

export function WaitCell({ job }: { job: BoardJob }): JSX.Element {
  const waits = waitsOf(job)
  const held = waits.filter((wait) => wait.code === 'held')
  const rest = waits.filter((wait) => wait.code !== 'held')
  return (
    <>
      {held.slice(0, MOST_HOLDS).map((wait, at) => (
        <WaitLine key={at} wait={wait} />
      ))}
      {held.length > MOST_HOLDS && <p class="in-stop">{o.waits.moreHolds(held.length - MOST_HOLDS)}</p>}
      {rest.map((wait, at) => (
        <WaitLine key={at} wait={wait} />
      ))}
    </>
  )
}

function WaitLine({ wait }: { wait: Wait }): JSX.Element {
  switch (wait.code) {
    case 'held':
      return (
        <p class="o-line in-stop">
          <Mark name="held" />
          <span>
            <strong>{o.waits.held}: </strong>
            {wait.title}
            <small>{o.waits.heldFor(wait.asks, wait.of)}</small>
          </span>
        </p>
      )
    case 'next':
    case 'free':
      return (
        <p class="o-line">
          <Mark name="next" />
          <span>
            {wait.code === 'free' && <small>{o.waits.free}</small>}
            {wait.title}
          </span>
        </p>
      )
    case 'set_aside':
    case 'photos_not_here':
    case 'photos_wanted':
      return (
        <p class="o-line">
          <Mark name={wait.code === 'set_aside' ? 'aside' : 'camera'} />
          <span>
            {wait.code === 'set_aside' ? w.common.entries(wait.count) : w.common.photos(wait.count)}{' '}
            {o.waits[wait.code]}
          </span>
        </p>
      )
    default:
      return (
        <p class="o-line in-bay">
          <Mark name={wait.code === 'file' ? 'filed' : 'person'} />
          <span>{o.waits[wait.code]}</span>
        </p>
      )
  }
}

type CellProps = { job: BoardJob; now_ms: number }

export function HeatCell({ job, now_ms }: CellProps): JSX.Element {
  return (
    <>
      {job.runs.length + job.forecasts.length === 0 && <span class="soft">{o.board.noRun}</span>}
      {job.runs.map((run) => (
        <RunLine key={run.run} run={run} now_ms={now_ms} />
      ))}
      {job.forecasts.map((one) => (
        <p key={one.zone}>
          {o.board.forecast(one.zone, when(one.handling_ms, now_ms), when(one.full_ms, now_ms))}
          <small>{o.board.forecastAdvice}</small>
        </p>
      ))}
    </>
  )
}

function RunLine({ run, now_ms }: { run: BoardRun; now_ms: number }): JSX.Element {
  const part = run.aborted ? o.board.runAborted : o.board.runPart[runProfile(run, now_ms).part]
  return (
    <div class="o-board-run in-hot">
      <HeatProfile progress={runProfile(run, now_ms).share} />
      <p>
        <strong>{o.board.run(run.zone, o.what.purpose(run.purpose))}</strong>
        <small>
          {part}, {o.board.runOn(duration(wholeMinutes(now_ms - run.on_ms)))}
        </small>
        {run.soak_s > 0 && !run.aborted && (
          <small>{o.board.soak(duration(run.soak_ms), duration(run.soak_s * 1000))}</small>
        )}
      </p>
    </div>
  )
}

export function DeviceCell({ job, now_ms }: CellProps): JSX.Element {
  return (
    <>
      {job.devices.length === 0 && <span class="soft">{o.board.noPhones}</span>}
      {[...job.devices].sort(lastHeardFirst).map((device) => (
        <DeviceLine
          key={device.device}
          device={device}
          alone={job.devices.filter((other) => other.person === device.person).length === 1}
          now_ms={now_ms}
        />
      ))}
    </>
  )
}

const lastHeardFirst = (a: BoardDevice, b: BoardDevice): number => b.last_heard_ms - a.last_heard_ms

type DeviceProps = { device: BoardDevice; alone: boolean; now_ms: number }

function DeviceLine({ device, alone, now_ms }: DeviceProps): JSX.Element {
  const holds = device.holds_entries + device.holds_photos > 0
  return (
    <p class="o-line">
      <Mark name={holds ? 'phone' : 'office'} />
      <span>
        {o.board.phone(device.name, device.person, alone)}, {ago(device.last_heard_ms, now_ms)}
        {holds && <small>{o.board.holds(device.holds_entries, device.holds_photos)}</small>}
      </span>
    </p>
  )
}

export function RecordCell({ job }: { job: BoardJob }): JSX.Element {
  return (
    <>
      <p class={`o-line${job.deviations > 0 ? ' in-dev' : ' soft'}`}>
        {job.deviations > 0 && <Mark name="deviation" />}
        <span>{o.board.deviations(job.deviations)}</span>
      </p>
      <p class={`o-line${job.findings > 0 ? ' in-stop' : ' soft'}`}>
        {job.findings > 0 && <Mark name="finding" />}
        <span>{o.board.findings(job.findings)}</span>
      </p>
      {job.instruments_overdue > 0 && (
        <p class="o-line in-stop">
          <Mark name="finding" />
          <span>{o.board.instruments(job.instruments_overdue)}</span>
        </p>
      )}
      {job.refused > 0 && (
        <p class="o-line">
          <Mark name="refused" />
          <span>{o.board.refused(job.refused)}</span>
        </p>
      )}
      {job.closed && <small>{o.board.closed}</small>}
    </>
  )
}
