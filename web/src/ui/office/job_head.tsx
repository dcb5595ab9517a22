// The head of the job page: order, part, who and where, and the keys of the office's acts.
import type { JSX } from 'preact'
import type { OfficeJob } from '../../core/views/office_job.ts'
import { dossierUrl, previewUrl, reportUrl } from '../../office_api/client.ts'
import { w } from '../words/en.ts'
import { longDay } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import type { AskFor, JobAsk } from './job_ask.ts'
import { personName, useOffice } from './office_desk.ts'
import { usePageTitle } from './page_parts.tsx'
import { partName } from './part_name.ts'

const LONG_ORDER = 5

export function JobHeadLine({ job, onAsk }: { job: OfficeJob; onAsk: AskFor }): JSX.Element {
  const { head } = job
  usePageTitle(w.card.job(head.order))
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
        <a class="key key-plain" href={previewUrl(job.log.job)} target="_blank" rel="noreferrer">
          <span>{acts.reportSoFar}</span>
        </a>
      )}
      {job.filing.at === 'not_filed' && (
        <button
          type="button"
          class={`key key-${incomplete ? 'stop' : 'main'}`}
          onClick={() => onAsk({ act: 'file' })}
        >
          <span>{incomplete ? acts.fileIncomplete : acts.file}</span>
        </button>
      )}
      {job.filing.at === 'filed' && <FiledKeys job={job} filing={job.filing} onAsk={onAsk} />}
    </div>
  )
}

type FiledKeysProps = {
  job: OfficeJob
  filing: Extract<OfficeJob['filing'], { at: 'filed' }>
  onAsk: AskFor
}

/** What can be taken away of a filed job; what came since asks for an addendum. */
function FiledKeys({ job, filing, onAsk }: FiledKeysProps): JSX.Element {
  const { acts } = o.job
  return (
    <>
      <a class="key key-plain" href={reportUrl(filing.dossier)} target="_blank" rel="noreferrer">
        <span>{acts.report}</span>
      </a>
      <a class="key key-plain" href={dossierUrl(filing.dossier)} download="">
        <span>{acts.dossier}</span>
      </a>
      {filing.after.size > 0 && (
        <button
          type="button"
          class={`key key-${job.lacks.length > 0 ? 'stop' : 'main'}`}
          onClick={() => onAsk({ act: 'addendum' })}
        >
          <span>{acts.addendum}</span>
        </button>
      )}
    </>
  )
}
