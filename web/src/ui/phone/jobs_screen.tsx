// My jobs: what each asks for next, and the one to go on with.
import type { JSX } from 'preact'
import type { JobView } from '../../core/views/job_view.ts'
import type { SyncStatus } from '../../sync/types.ts'
import { KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateMark, type StateName } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { longDay } from '../words/format.ts'
import { partWords } from '../words/names.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { laterPart } from './later_part.tsx'
import { NetworkSwitch } from './network_switch.tsx'
import { paths } from './router.ts'
import { RunLine } from './while_hot.tsx'

const EmptyJobs = laterPart(async () => (await import('./empty_jobs.tsx')).EmptyJobs)
const UpdateNote = laterPart(async () => (await import('./update_note.tsx')).UpdateNote)

/** Jobs of this phone: open ones first, those no longer its own last. */
export function JobsScreen({ jobs, reader }: { jobs: readonly JobView[]; reader: boolean }): JSX.Element {
  const { services, rows, people, me } = usePhone()
  const now_ms = services.device.clock.now().at_ms
  const open = jobs.filter((job) => !job.closed && !rows.value.get(job.job)?.gone)
  const rest = jobs.filter((job) => !open.includes(job))
  const first = open.find((job) => job.run) ?? open[0]
  return (
    <Frame
      act="jobs"
      what={[personNow(people.value, me().by), longDay(now_ms)].filter((one) => one !== '').join(' · ')}
      foot={
        <>
          {first && (
            <KeyLink tone="main" href={reader ? paths.wanted(first.job) : paths.card(first.job)}>
              {reader ? w.phone.wanted.page : w.phone.jobs.goOn(first.order)}
            </KeyLink>
          )}
          <KeyLink href={paths.records()}>{w.phone.jobs.records}</KeyLink>
          <KeyLink href={paths.self}>{w.phone.jobs.thisPhone}</KeyLink>
        </>
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {jobs.length === 0 ? w.phone.jobs.empty : w.phone.jobs.title(open.length)}
        </h1>
        {services.update.waiting.value && <UpdateNote hot={jobs.some((job) => job.run !== undefined)} />}
        {jobs.length === 0 &&
          (isFirstAsked(services.sync.status.value) ? <p>{w.phone.syncing}</p> : <EmptyJobs />)}
        <ul class="jobs">
          {[...open, ...rest].map((job) => (
            <JobRow key={job.job} job={job} reader={reader} />
          ))}
        </ul>
        <NetworkSwitch />
        {jobs.some((job) => job.invented) && <p class="label soft">{w.common.invented}</p>}
      </Leaf>
    </Frame>
  )
}

/** The office was never heard, and is being asked now: its jobs may be here in a moment. */
function isFirstAsked({ state, heard_ms }: SyncStatus): boolean {
  return state === 'syncing' && heard_ms === 0
}

function personNow(people: readonly { id: string; name: string }[], id: string): string {
  return people.find((one) => one.id === id)?.name ?? ''
}

function markOf(job: JobView): StateName {
  if (job.closed) return 'filed'
  if (job.next?.heldBy) return 'held'
  if (job.progress.all === 0) return 'waits'
  return job.next ? 'next' : 'done'
}

function JobRow({ job, reader }: { job: JobView; reader: boolean }): JSX.Element {
  return (
    <li class="in-ruled">
      <StateMark state={markOf(job)} />
      <a class="job-cover" href={reader ? paths.wanted(job.job) : paths.card(job.job)}>
        <span class="num job-order">{job.order || '–'}</span>
        <span class="job-part">{partWords(job)}</span>
      </a>
      <p class="soft">{[job.vehicle, job.place].filter((word) => word !== '').join(' · ')}</p>
      {job.methods.map((method) => (
        <p key={method.title} class="label soft">
          {w.phone.jobs.method(method.title, method.revision)}
        </p>
      ))}
      <p class="job-line">
        <JobLine job={job} />
      </p>
      {job.wanted > 0 && <p class="label">{w.phone.jobs.wanted(job.wanted)}</p>}
    </li>
  )
}

function JobLine({ job }: { job: JobView }): JSX.Element {
  const { rows } = usePhone()
  if (rows.value.get(job.job)?.gone) return <>{w.phone.jobs.gone}</>
  if (job.filed) return <>{w.phone.jobs.filed}</>
  if (job.closed) return <>{w.phone.jobs.closed}</>
  if (job.run) return <RunLine run={job.run} />
  if (job.progress.all === 0) return <>{w.phone.jobs.opens}</>
  if (job.next === undefined) return <>{w.phone.jobs.allDone}</>
  const { title } = job.next.place.step
  if (job.next.heldBy) {
    return (
      <>
        <strong class="in-stop">{w.phone.jobs.held}</strong> {w.phone.jobs.heldBy(title)}
      </>
    )
  }
  return <strong>{w.phone.jobs.next(title)}</strong>
}
