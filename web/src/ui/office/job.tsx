// The job page: what has arrived, what it adds up to, what is missing, and the office's acts.
import type { JSX } from 'preact'
import { useMemo, useState } from 'preact/hooks'
import { fold } from '../../core/fold/index.ts'
import { type OfficeJob, officeJob } from '../../core/views/office_job.ts'
import type { JobLog } from '../../core/views/office_log.ts'
import { dossierUrl } from '../../office_api/client.ts'
import type { FiledRow, RefusedText } from '../../office_api/rows.ts'
import { longDay } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { partName } from './board.tsx'
import { FileSheet } from './file_sheet.tsx'
import type { AskFor, JobAsk } from './job_ask.ts'
import { JobLacks } from './job_lacks.tsx'
import { JobPhotos, PhotoSheet } from './job_photos.tsx'
import { PeopleSheet, PinSheet, PlaceSheet, SignSheet, TextSheet } from './job_sheets.tsx'
import { JobAsides, JobDeviations, JobFindings, JobRefused } from './job_side.tsx'
import { JobSteps } from './job_steps.tsx'
import { JobRuns, JobTally } from './job_work.tsx'
import { personName, useFeed, useOffice, useRoute } from './office_desk.ts'
import { SeenPage, Sheet } from './page_parts.tsx'
import { textActOf } from './text_acts.ts'
import { TimeLine } from './time_line.tsx'

const REFUSED_EVERY_MS = 15_000
const REGISTER_EVERY_MS = 15_000
const LONG_ORDER = 5
const NOTHING: readonly RefusedText[] = []

export function JobScreen({ job }: { job: string }): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useFeed(() => desk.watchJob(job), job)
  const refused = useRoute(() => desk.api.refusedTexts(job), REFUSED_EVERY_MS, `refused ${job}`)
  const register = useRoute(desk.api.filed, REGISTER_EVERY_MS, 'filed')
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
          refresh={refreshAll}
        />
      )}
    </SeenPage>
  )
}

type Register = readonly FiledRow[] | undefined
type PageProps = { log: JobLog; register: Register; refused: readonly RefusedText[]; refresh: () => void }

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

function JobPage({ log, register, refused, refresh }: PageProps): JSX.Element {
  const job = useJob(log, register)
  const [ask, setAsk] = useState<JobAsk>()
  if (log.items.length === 0) return <p class="o-loading">{o.job.empty}</p>
  return (
    <>
      <JobHeadLine job={job} onAsk={setAsk} />
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
          <JobDeviations items={job.deviations} onAsk={setAsk} />
          <JobRuns runs={job.runs} />
          <JobTally tally={job.tally} />
          <JobRefused refused={refused} />
        </div>
      </div>
      {ask && <AskSheet key={JSON.stringify(ask)} ask={ask} job={job} refresh={refresh} onAsk={setAsk} />}
    </>
  )
}

function JobHeadLine({ job, onAsk }: { job: OfficeJob; onAsk: AskFor }): JSX.Element {
  const { head } = job
  const marks = [
    head.closed ? o.job.closed : '',
    job.filing.at === 'filed' ? o.job.filed : '',
    head.invented ? o.board.invented : '',
  ]
  return (
    <header class="o-job-head">
      <p class={`o-job-order num${head.order.length > LONG_ORDER ? ' o-job-order-long' : ''}`}>
        {head.order}
      </p>
      <div class="o-job-what">
        <h1 tabIndex={-1}>
          {partName(head)}
          {marks.filter(Boolean).map((mark) => (
            <small key={mark} class="o-inline">
              {' '}
              · {mark}
            </small>
          ))}
        </h1>
        <HeadFacts job={job} />
      </div>
      <JobActs job={job} onAsk={onAsk} />
    </header>
  )
}

function HeadFacts({ job }: { job: OfficeJob }): JSX.Element {
  const { shop } = useOffice()
  const { head } = job
  const facts: readonly (readonly [string, string])[] = [
    [o.job.vin, head.vin || o.job.none],
    [o.job.vehicle, head.vehicle || o.job.none],
    [
      o.job.method,
      head.methods.map((one) => o.board.method(one.title, one.revision)).join('; ') || o.job.none,
    ],
    [o.job.place, head.place || o.job.none],
    [o.job.assigned, head.assigned.map((person) => personName(shop, person)).join(', ') || o.job.nobody],
    [o.job.opened, longDay(head.opened_ms)],
  ]
  return (
    <dl class="o-head-facts">
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
}

function JobActs({ job, onAsk }: { job: OfficeJob; onAsk: AskFor }): JSX.Element {
  const { head } = job
  const { acts } = o.job
  const plain: readonly (readonly [string, JobAsk])[] = [
    [acts.people, { act: 'people' }],
    [acts.place, { act: 'place' }],
    [acts.pin, { act: 'pin' }],
    [acts.note, { act: 'note', about: [], words: '' }],
    head.closed ? [acts.reopen, { act: 'reopen', words: '' }] : [acts.close, { act: 'close', words: '' }],
  ]
  const incomplete = job.lacks.length > 0
  return (
    <div class="o-keys o-job-acts">
      {plain.map(([name, ask]) => (
        <button key={name} type="button" class="key key-plain" onClick={() => onAsk(ask)}>
          <span>{name}</span>
        </button>
      ))}
      {job.filing.at === 'not_filed' && (
        <button
          type="button"
          class={`key key-${incomplete ? 'stop' : 'main'}`}
          onClick={() => onAsk({ act: 'file' })}
        >
          <span>{incomplete ? acts.fileIncomplete : acts.file}</span>
        </button>
      )}
      {job.filing.at === 'filed' && (
        <a class="key key-plain" href={dossierUrl(job.filing.dossier)} download="">
          <span>{o.job.acts.report}</span>
        </a>
      )}
    </div>
  )
}

type AskProps = { ask: JobAsk; job: OfficeJob; refresh: () => void; onAsk: (ask: JobAsk | undefined) => void }

function titleOf(ask: JobAsk, job: OfficeJob): string {
  const text = textActOf(ask)
  if (text) return text.title
  if (ask.act === 'photo') return ask.name
  if (ask.act === 'file') return o.job.file.title(job.head.order)
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
      return <FileSheet job={job} onDone={done} refresh={refresh} />
  }
}
