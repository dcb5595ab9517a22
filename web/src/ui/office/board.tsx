// The board: every open job in one row, under one sentence.
import type { JSX } from 'preact'
import { byOrder, headlineOf, ruleOf, type Wait, waitsOf } from '../../core/views/office_board.ts'
import { BOARD_EVERY_MS } from '../../office_api/desk.ts'
import type { BoardDevice, BoardJob, BoardRun } from '../../office_api/rows.ts'
import { Mark } from '../parts/mark.tsx'
import { SteelRule } from '../parts/steel_rule.tsx'
import { w } from '../words/en.ts'
import { duration } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { ago } from './ago.ts'
import { useOffice, useRoute } from './office_desk.ts'
import { Empty, Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'

export function BoardScreen(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.board, BOARD_EVERY_MS, 'board')
  const jobs = seen.value?.jobs ?? []
  return (
    <>
      <Head title={seen.value ? o.board.headline(headlineOf(jobs)) : o.board.title}>
        <a class="key key-main" href={linkTo.new}>
          <span>{o.board.open}</span>
        </a>
      </Head>
      <SeenPage seen={seen} refresh={refresh}>
        {(board) =>
          board.jobs.length === 0 ? (
            <Empty words={o.board.empty} next={o.board.emptyNext} />
          ) : (
            <BoardTable jobs={[...board.jobs].sort(byOrder)} now_ms={board.now_ms} />
          )
        }
      </SeenPage>
    </>
  )
}

const COLUMNS = ['job', 'part', 'stage', 'waits', 'heat', 'heard', 'record'] as const

function BoardTable({ jobs, now_ms }: { jobs: readonly BoardJob[]; now_ms: number }): JSX.Element {
  return (
    <table class="o-table o-board" aria-label={o.board.title}>
      <thead>
        <tr>
          {COLUMNS.map((column) => (
            <th key={column} scope="col">
              {o.board[column]}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {jobs.map((job) => (
          <BoardRow key={job.job} job={job} now_ms={now_ms} />
        ))}
      </tbody>
    </table>
  )
}

function BoardRow({ job, now_ms }: { job: BoardJob; now_ms: number }): JSX.Element {
  return (
    <tr>
      <th scope="row">
        <a class="o-order num" href={linkTo.job(job.job)} aria-label={w.card.job(job.order)}>
          {job.order}
        </a>
      </th>
      <td data-name={o.board.part}>
        <strong>{partName(job)}</strong>
        {job.methods.map((method) => (
          <small key={method.digest}>{o.board.method(method.title, method.revision)}</small>
        ))}
        {job.methods.length === 0 && <small>{o.board.noMethod}</small>}
        {job.place !== '' && <small>{o.board.place(job.place)}</small>}
      </td>
      <td data-name={o.board.stage}>
        <StageCell job={job} />
      </td>
      <td data-name={o.board.waits}>
        {waitsOf(job).map((wait, at) => (
          <WaitLine key={at} wait={wait} />
        ))}
      </td>
      <td data-name={o.board.heat}>
        {job.runs.length === 0 && <span class="soft">{o.board.noRun}</span>}
        {job.runs.map((run) => (
          <RunLine key={run.run} run={run} now_ms={now_ms} />
        ))}
      </td>
      <td data-name={o.board.heard}>
        {job.devices.length === 0 && <span class="soft">{o.board.noPhones}</span>}
        {job.devices.map((device) => (
          <DeviceLine key={device.device} device={device} now_ms={now_ms} />
        ))}
      </td>
      <td data-name={o.board.record}>
        <RecordCell job={job} />
      </td>
    </tr>
  )
}

export function partName(job: { readonly part: string; readonly side: 'left' | 'right' | 'none' }): string {
  return [job.part, w.common.side[job.side]].filter((word) => word !== '').join(', ')
}

function StageCell({ job }: { job: BoardJob }): JSX.Element {
  if (job.steps_total === 0) return <span class="soft">{o.board.noSteps}</span>
  return (
    <>
      <span>{job.next?.stage ?? o.board.allSteps}</span>
      <SteelRule graduations={ruleOf(job).map((one) => ({ ...one, hold: false }))} />
      <small>{o.board.progress(job.steps_done, job.steps_total)}</small>
    </>
  )
}

function WaitLine({ wait }: { wait: Wait }): JSX.Element {
  if ('title' in wait) {
    const held = wait.code === 'held'
    return (
      <p class={`o-line${held ? ' in-stop' : ''}`}>
        <Mark name={held ? 'held' : 'next'} />
        <span>
          {held && <strong>{o.waits.held}: </strong>}
          {wait.title}
        </span>
      </p>
    )
  }
  if ('count' in wait) {
    return (
      <p class="o-line">
        <Mark name={wait.code === 'set_aside' ? 'aside' : 'camera'} />
        <span>
          {wait.code === 'set_aside' ? w.common.entries(wait.count) : w.common.photos(wait.count)}{' '}
          {o.waits[wait.code]}
        </span>
      </p>
    )
  }
  return (
    <p class="o-line in-bay">
      <Mark name={wait.code === 'file' ? 'filed' : 'person'} />
      <span>{o.waits[wait.code]}</span>
    </p>
  )
}

function RunLine({ run, now_ms }: { run: BoardRun; now_ms: number }): JSX.Element {
  return (
    <p class="o-line in-hot">
      <Mark name="hot" />
      <span>
        <strong>{o.board.run(run.zone, o.what.purpose(run.purpose))}</strong>
        <small>
          {o.board.runOn(duration(now_ms - run.on_ms))}, {o.board.runMoment(o.what.moment(run.moment))}
        </small>
        {run.soak_s > 0 && <small>{o.board.soak(duration(run.soak_ms), duration(run.soak_s * 1000))}</small>}
      </span>
    </p>
  )
}

function DeviceLine({ device, now_ms }: { device: BoardDevice; now_ms: number }): JSX.Element {
  const holds = device.holds_entries + device.holds_photos > 0
  return (
    <p class="o-line">
      <Mark name={holds ? 'phone' : 'office'} />
      <span>
        {o.board.phone(device.name, device.person)}, {ago(device.last_heard_ms, now_ms)}
        {holds && <small>{o.board.holds(device.holds_entries, device.holds_photos)}</small>}
      </span>
    </p>
  )
}

function RecordCell({ job }: { job: BoardJob }): JSX.Element {
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
      {job.refused > 0 && (
        <p class="o-line">
          <Mark name="refused" />
          <span>{o.board.refused(job.refused)}</span>
        </p>
      )}
      {job.closed && <small>{o.board.closed}</small>}
      {job.invented && <small>{o.board.invented}</small>}
    </>
  )
}
