// The board: every open job in one row, under one sentence.
import type { JSX } from 'preact'
import { byOrder, headlineOf, ruleOf } from '../../core/views/office_board.ts'
import { BOARD_EVERY_MS } from '../../office_api/desk.ts'
import type { Board, BoardJob, LateJob } from '../../office_api/rows.ts'
import { Mark } from '../parts/mark.tsx'
import { SteelRule } from '../parts/steel_rule.tsx'
import { w } from '../words/en.ts'
import { when } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { DeviceCell, HeatCell, RecordCell, WaitCell } from './board_cells.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Empty, Head, SeenPage } from './page_parts.tsx'
import { orderClass, partName } from './part_name.ts'
import { linkTo } from './place.ts'

export function BoardScreen(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.board, BOARD_EVERY_MS, 'board')
  const jobs = seen.value?.jobs ?? []
  return (
    <>
      <Head
        title={seen.value ? o.board.headline(headlineOf(jobs), seen.value.now_ms) : o.board.title}
        tab={o.board.title}
      >
        <a class="key key-main" href={linkTo.new}>
          <span>{o.board.open}</span>
        </a>
      </Head>
      <SeenPage seen={seen} refresh={refresh}>
        {(board) => <BoardPage board={board} />}
      </SeenPage>
    </>
  )
}

function BoardPage({ board }: { board: Board }): JSX.Element {
  const jobs = [...board.jobs].sort(byOrder)
  return (
    <>
      {jobs.length === 0 ? (
        <Empty words={o.board.empty} next={o.board.emptyNext} />
      ) : (
        <BoardTable jobs={jobs} now_ms={board.now_ms} />
      )}
      {board.late.length > 0 && <LateJobs jobs={board.late} now_ms={board.now_ms} />}
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
        <a class={orderClass(job.order)} href={linkTo.job(job.job)} aria-label={w.card.job(job.order)}>
          {job.order}
        </a>
      </th>
      <td data-name={o.board.part}>
        <PartCell job={job} />
      </td>
      <td data-name={o.board.stage}>
        <StageCell job={job} />
      </td>
      <td data-name={o.board.waits}>
        <WaitCell job={job} />
      </td>
      <td data-name={o.board.heat}>
        <HeatCell job={job} now_ms={now_ms} />
      </td>
      <td data-name={o.board.heard}>
        <DeviceCell job={job} now_ms={now_ms} />
      </td>
      <td data-name={o.board.record}>
        <RecordCell job={job} />
      </td>
    </tr>
  )
}

function PartCell({ job }: { job: BoardJob }): JSX.Element {
  return (
    <>
      <strong>{partName(job)}</strong>
      {job.methods.map((method) => (
        <small key={method.digest}>{o.board.method(method.title, method.revision)}</small>
      ))}
      {job.methods.length === 0 && <small>{o.board.noMethod}</small>}
      <small>
        {job.place === '' ? o.board.noPlace : o.board.place(job.place)}
        {job.invented && ` · ${o.board.invented}`}
      </small>
    </>
  )
}

function StageCell({ job }: { job: BoardJob }): JSX.Element {
  if (job.steps_total === 0) return <span class="soft">{o.board.noSteps}</span>
  return (
    <>
      <span>{job.next?.stage ?? o.board.allSteps}</span>
      <SteelRule graduations={ruleOf(job)} />
      <small>{o.board.progress(job.steps_done, job.steps_total)}</small>
    </>
  )
}

/** Filed jobs that a phone from a drawer has spoken of since: the only filed ones that the board knows. */
function LateJobs({ jobs, now_ms }: { jobs: readonly LateJob[]; now_ms: number }): JSX.Element {
  return (
    <section class="o-part o-late" aria-label={o.board.late}>
      <h2>{o.board.late}</h2>
      <p class="o-note">{o.board.lateNote}</p>
      <ul class="o-list">
        {jobs.map((job) => (
          <li key={job.job}>
            <Mark name="late" />
            <p>
              <a class="o-link" href={linkTo.job(job.job)} aria-label={o.board.lateGo(job.order)}>
                {job.order}
              </a>{' '}
              {job.part} · {o.board.lateJob(job.after_filing, when(job.late_ms ?? 0, now_ms))}
            </p>
          </li>
        ))}
      </ul>
    </section>
  )
}
