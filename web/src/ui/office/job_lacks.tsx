// What a job lacks for filing, and which phones may still hold some of it.
import type { JSX } from 'preact'
import type { OfficeJob } from '../../core/views/office_job.ts'
import type { Lack, LackCode } from '../../core/views/office_missing.ts'
import { dossierUrl } from '../../office_api/client.ts'
import type { DeviceRow } from '../../office_api/rows.ts'
import { Mark, type MarkName } from '../parts/mark.tsx'
import { dateAndTime } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { ago } from './ago.ts'
import { useSecond } from './office_clock.tsx'
import { useOffice } from './office_desk.ts'

const LACK_MARK: { readonly [C in LackCode]: readonly [MarkName, string] } = {
  missing_methods: ['absent', ''],
  no_method: ['absent', ''],
  steps_open: ['open', ''],
  holds_open: ['held', 'in-stop'],
  run_hot: ['hot', 'in-hot'],
  findings_open: ['finding', 'in-stop'],
  deviations_open: ['deviation', 'in-dev'],
  photos_wanted: ['camera', ''],
  photos_not_here: ['phone', ''],
  set_aside: ['aside', ''],
  unknown_kinds: ['aside', ''],
  not_closed: ['open', ''],
}

export function LackList({ lacks }: { lacks: readonly Lack[] }): JSX.Element {
  return (
    <ul class="o-list">
      {lacks.map((lack) => {
        const [mark, ink] = LACK_MARK[lack.code]
        const [strong, rest] = o.job.lacks[lack.code](lack.count, lack.words)
        return (
          <li key={lack.code}>
            <span class={ink}>
              <Mark name={mark} />
            </span>
            <p>
              <strong>{strong}</strong>
              {rest}
            </p>
          </li>
        )
      })}
    </ul>
  )
}

/** Phones of this job that held unsent records when they were last heard. */
function phonesHolding(job: OfficeJob, devices: readonly DeviceRow[]): readonly DeviceRow[] {
  const authors = new Set(job.log.items.map((item) => item.entry.device))
  return devices.filter((device) => {
    const ours = authors.has(device.device) || job.head.assigned.includes(device.person)
    return ours && device.holds_entries + device.holds_photos > 0
  })
}

/** What may be on phones still: a view of the last contact, so it blocks nothing and is only said. */
export function PhonesHolding({ job }: { job: OfficeJob }): JSX.Element {
  const { shop } = useOffice()
  const now_ms = useSecond()
  return (
    <ul class="o-list">
      {phonesHolding(job, shop.devices).map((device) => (
        <li key={device.device}>
          <Mark name="phone" />
          <p>
            <strong>{device.name}</strong>, {ago(device.last_heard_ms, now_ms)}:{' '}
            {o.board.holds(device.holds_entries, device.holds_photos)}
          </p>
        </li>
      ))}
    </ul>
  )
}

type Filing = Extract<OfficeJob['filing'], { at: 'filed' }>

/** What the dossier holds and does not: why it was filed incomplete, what it follows, and what came since. */
function Filed({ filing }: { filing: Filing }): JSX.Element {
  const { reason, after, earlier } = filing
  const [before] = earlier
  return (
    <>
      <p>
        {o.job.filedOn(dateAndTime(filing.filed_ms))}{' '}
        {before && o.job.addendumOf(dateAndTime(before.filed_ms))}
      </p>
      {reason !== '' && <p class="o-reason">{o.job.filedBecause(reason)}</p>}
      {after.size > 0 && (
        <p>
          <strong>{o.filed.after(after.size)}</strong>
        </p>
      )}
      {earlier.map((one) => (
        <p key={one.dossier}>
          <a class="o-link" href={dossierUrl(one.dossier)} download="">
            {o.job.earlier(dateAndTime(one.filed_ms))}
          </a>
        </p>
      ))}
    </>
  )
}

export function JobLacks({ job }: { job: OfficeJob }): JSX.Element {
  const { filing, lacks } = job
  const filed = filing.at === 'filed'
  const title = filed ? o.job.filedTitle(filing.reason === '') : o.job.lacksTitle(lacks.length > 0)
  return (
    <section class="o-part" aria-label={title}>
      <h2>{title}</h2>
      {filed && <Filed filing={filing} />}
      {lacks.length === 0 ? <p class="soft">{o.job.lacksNone}</p> : <LackList lacks={lacks} />}
      <PhonesHolding job={job} />
    </section>
  )
}
