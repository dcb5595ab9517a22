// The job page: what has arrived, what it adds up to, what is missing, and the sheets of the office's acts.
import type { JSX } from 'preact'
import { useMemo, useState } from 'preact/hooks'
import { fold } from '../../core/fold/index.ts'
import type { MethodDoc } from '../../core/method.ts'
import { type OfficeJob, officeJob } from '../../core/views/office_job.ts'
import type { JobLog } from '../../core/views/office_log.ts'
import type { FiledRow, RefusedText } from '../../office_api/rows.ts'
import { o } from '../words/office_en.ts'
import { FileSheet } from './file_sheet.tsx'
import { JobHeat } from './heat_screens.tsx'
import type { JobAsk } from './job_ask.ts'
import { JobClocks } from './job_clocks.tsx'
import { JobHeadLine } from './job_head.tsx'
import type { JobPlans } from './job_heat.tsx'
import { JobInstruments } from './job_instruments.tsx'
import { JobJump } from './job_jump.tsx'
import { JobLacks } from './job_lacks.tsx'
import { JobPhotos, PhotoSheet } from './job_photos.tsx'
import { PeopleSheet, PlaceSheet, SignSheet, TextSheet } from './job_sheets.tsx'
import { JobAsides, JobDeviations, JobFindings, JobRefused } from './job_side.tsx'
import { JobSteps } from './job_steps.tsx'
import { JobTally } from './job_tally.tsx'
import { JobRuns } from './job_work.tsx'
import { useFeed, useOffice, useRoute } from './office_desk.ts'
import { SeenPage, Sheet } from './page_parts.tsx'
import { Papers } from './papers.tsx'
import { PinSheet } from './pin_sheet.tsx'
import { textActOf } from './text_acts.ts'
import { TimeLine } from './time_line.tsx'

const REFUSED_EVERY_MS = 15_000
const REGISTER_EVERY_MS = 15_000
const PLANS_EVERY_MS = 15_000
const NOTHING: readonly RefusedText[] = []

export function JobScreen({ job }: { job: string }): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useFeed(() => desk.watchJob(job), job)
  const refused = useRoute(() => desk.api.refusedTexts(job), REFUSED_EVERY_MS, `refused ${job}`)
  const register = useRoute(() => desk.api.filedJob(job), REGISTER_EVERY_MS, `filed ${job}`)
  const plans = useRoute(() => desk.api.cardPlans(job), PLANS_EVERY_MS, `plans ${job}`)
  const refreshAll = (): void => {
    refresh()
    register.refresh()
  }
  return (
    <SeenPage seen={seen} refresh={refresh}>
      {(log) => (
        <JobPage
          log={log}
          register={register.seen.value}
          refused={refused.seen.value ?? NOTHING}
          plans={plans}
          refresh={refreshAll}
        />
      )}
    </SeenPage>
  )
}

type Register = readonly FiledRow[] | undefined
type PageProps = {
  log: JobLog
  register: Register
  refused: readonly RefusedText[]
  plans: JobPlans
  refresh: () => void
}

function useJob(log: JobLog, register: Register): OfficeJob {
  const { items, methods } = log
  // Folding is the dear part: the photo lists change with every pull, entries and methods seldom do.
  const state = useMemo(
    () =>
      fold(
        methods,
        items.map((item) => item.entry),
      ),
    [items, methods],
  )
  return useMemo(() => officeJob(log, state, register), [log, state, register])
}

function JobPage({ log, register, refused, plans, refresh }: PageProps): JSX.Element {
  const job = useJob(log, register)
  const [ask, setAsk] = useState<JobAsk>()
  if (log.items.length === 0) return <p class="o-loading">{o.job.empty}</p>
  return (
    <>
      <JobHeadLine job={job} onAsk={setAsk} />
      <JobJump />
      <div class="o-columns">
        <TimeLine groups={job.groups} onAsk={setAsk} />
        <div class="o-column">
          <JobPhotos photos={job.photos} onAsk={setAsk} />
          <JobSteps stages={job.stages} progress={job.progress} onAsk={setAsk} />
        </div>
        <div class="o-column">
          <JobLacks job={job} />
          <JobAsides job={job} onAsk={setAsk} />
          <JobFindings items={job.findings} onAsk={setAsk} />
          <JobInstruments job={job} />
          <JobClocks job={job} />
          <JobDeviations items={job.deviations} onAsk={setAsk} />
          <JobRuns runs={job.runs} log={log} state={job.state} plans={plans.seen.value} refresh={refresh} />
          <JobHeat job={log.job} methods={methodsOf(log)} closed={job.filing.at === 'filed'} plans={plans} />
          <JobTally tally={job.tally} log={log} state={job.state} />
          <JobRefused refused={refused} />
          <Papers job={log.job} methods={[...new Set(Object.values(log.methods).map(({ id }) => id))]} />
        </div>
      </div>
      {ask && <AskSheet key={JSON.stringify(ask)} ask={ask} job={job} refresh={refresh} onAsk={setAsk} />}
    </>
  )
}

/** One revision of each: a method that was pinned anew is one method still. */
function methodsOf(log: JobLog): readonly MethodDoc[] {
  return [...new Map(Object.values(log.methods).map((doc) => [doc.id, doc])).values()]
}

type AskProps = { ask: JobAsk; job: OfficeJob; refresh: () => void; onAsk: (ask: JobAsk | undefined) => void }

function titleOf(ask: JobAsk, job: OfficeJob): string {
  const text = textActOf(ask)
  if (text) return text.title
  if (ask.act === 'photo') return ask.name
  if (ask.act === 'file') return o.job.file.title(job.head.order)
  if (ask.act === 'addendum') return o.job.file.addendumTitle(job.head.order)
  const titles = {
    place: o.job.acts.place,
    people: o.job.acts.people,
    pin: o.job.acts.pin,
    sign: o.job.acts.signTitle,
  }
  return titles[ask.act as keyof typeof titles]
}

function AskSheet({ ask, job, refresh, onAsk }: AskProps): JSX.Element {
  const close = (): void => onAsk(undefined)
  const done = (): void => {
    close()
    refresh()
  }
  return (
    <Sheet title={titleOf(ask, job)} onClose={close}>
      <AskBody ask={ask} job={job} refresh={refresh} onAsk={onAsk} done={done} />
    </Sheet>
  )
}

function AskBody({ ask, job, refresh, onAsk, done }: AskProps & { done: () => void }): JSX.Element {
  const text = textActOf(ask)
  if (text) return <TextSheet job={job} text={text} onDone={done} />
  switch (ask.act) {
    case 'place':
      return <PlaceSheet job={job} onDone={done} />
    case 'people':
      return <PeopleSheet job={job} onDone={done} refresh={refresh} />
    case 'pin':
      return <PinSheet job={job} onDone={done} />
    case 'sign':
      return <SignSheet job={job} ask={ask} onDone={done} />
    case 'photo':
      return <PhotoSheet photo={ask.photo} name={ask.name} onAsk={onAsk} />
    default:
      return <FileSheet job={job} addendum={ask.act === 'addendum'} onDone={done} refresh={refresh} />
  }
}
