// The job page's right column: findings, deviations, what is set aside or refused.
import type { JSX } from 'preact'
import type { DeviationView, FindingView } from '../../core/views/office_findings.ts'
import type { OfficeJob } from '../../core/views/office_job.ts'
import type { RefusedText } from '../../office_api/rows.ts'
import { Mark } from '../parts/mark.tsx'
import { findings } from '../words/en_kinds.ts'
import { capital, when } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import type { AskFor } from './job_ask.ts'
import { useMinute } from './office_clock.tsx'
import { deviceName, personName, useOffice } from './office_desk.ts'
import { LinkButton } from './page_parts.tsx'
import { sayWhat } from './say_what.ts'

type WithAsk<T> = { items: readonly T[]; onAsk: AskFor }

export function findingName(code: string): string {
  return capital((findings as { readonly [code: string]: string })[code] ?? code.replaceAll('_', ' '))
}

function Accepted({ by }: { by: FindingView['accepted'] }): JSX.Element | null {
  const { shop } = useOffice()
  const now_ms = useMinute()
  if (by === undefined) return null
  return <small>{o.job.accepted(personName(shop, by.by), when(by.at_ms, now_ms), by.reason)}</small>
}

/** By code, in the order in which the first of each stands: the same shortcoming is named once. */
function byCode(items: readonly FindingView[]): readonly (readonly FindingView[])[] {
  const groups = new Map<string, FindingView[]>()
  for (const item of items) groups.set(item.code, [...(groups.get(item.code) ?? []), item])
  return [...groups.values()]
}

export function JobFindings({ items, onAsk }: WithAsk<FindingView>): JSX.Element {
  const open = items.filter((item) => item.accepted === undefined).length
  return (
    <section class="o-part" aria-label={o.job.findings}>
      <div class="o-part-head">
        <h2>{o.job.findings}</h2>
        {items.length > 0 && <small>{o.job.findingsOpen(open, items.length)}</small>}
      </div>
      {items.length === 0 && <p class="soft">{o.job.noFindings}</p>}
      <ul class="o-list">
        {byCode(items).map((same) => (
          <FindingGroup key={same[0]?.code} same={same} onAsk={onAsk} />
        ))}
      </ul>
    </section>
  )
}

function FindingGroup({ same, onAsk }: { same: readonly FindingView[]; onAsk: AskFor }): JSX.Element {
  const name = findingName(same[0]?.code ?? '')
  const open = same.some((finding) => finding.accepted === undefined)
  return (
    <li>
      <span class={open ? 'in-stop' : ''}>
        <Mark name="finding" />
      </span>
      <div>
        <p>
          <strong>{name}</strong>
          {same.length > 1 && <small class="o-inline"> · {same.length}</small>}
        </p>
        <ul class="o-places">
          {same.map((finding) => (
            <FindingRow
              key={JSON.stringify([finding.at, finding.hashes])}
              finding={finding}
              name={name}
              onAsk={onAsk}
            />
          ))}
        </ul>
      </div>
    </li>
  )
}

type FindingProps = { finding: FindingView; name: string; onAsk: AskFor }

function FindingRow({ finding, name, onAsk }: FindingProps): JSX.Element {
  const words = finding.where === '' ? name : `${name}: ${finding.where}`
  const { code, at, hashes } = finding
  return (
    <li>
      {finding.where}{' '}
      {finding.accepted ? (
        <Accepted by={finding.accepted} />
      ) : (
        <LinkButton
          label={o.job.accept(words)}
          onPress={() => onAsk({ act: 'accept', key: { code, at, hashes }, words })}
        >
          {o.job.acts.acceptKey}
        </LinkButton>
      )}
    </li>
  )
}

export function JobDeviations({ items, onAsk }: WithAsk<DeviationView>): JSX.Element {
  const { shop } = useOffice()
  const now_ms = useMinute()
  return (
    <section class="o-part" aria-label={o.job.deviations}>
      <h2>{o.job.deviations}</h2>
      {items.length === 0 && <p class="soft">{o.job.noDeviations}</p>}
      <ul class="o-list">
        {items.map((one) => (
          <li key={one.hash}>
            <span class="in-dev">
              <Mark name="deviation" />
            </span>
            <div>
              <p>
                <strong>{one.text}</strong>
                {one.where !== '' && ` · ${one.where}`}
              </p>
              <small>
                {personName(shop, one.by)}, {when(one.at_ms, now_ms)}
                {one.passesHold && ` · ${o.job.passesHold}`}
              </small>
              <Accepted by={one.accepted} />
              {!one.accepted && <DeviationActs one={one} onAsk={onAsk} />}
            </div>
          </li>
        ))}
      </ul>
    </section>
  )
}

function DeviationActs({ one, onAsk }: { one: DeviationView; onAsk: AskFor }): JSX.Element {
  const { code, at, hashes, text, about } = one
  return (
    <p class="o-row-acts">
      <LinkButton
        label={o.job.accept(text)}
        onPress={() => onAsk({ act: 'accept', key: { code, at, hashes }, words: text })}
      >
        {o.job.acts.acceptKey}
      </LinkButton>
      {about.length > 0 && (
        <LinkButton
          label={`${o.job.timeLine.sendBack}: ${text}`}
          onPress={() => onAsk({ act: 'send_back', hashes: about, words: text })}
        >
          {o.job.timeLine.sendBack}
        </LinkButton>
      )}
    </p>
  )
}

export function JobAsides({ job, onAsk }: { job: OfficeJob; onAsk: AskFor }): JSX.Element | null {
  const { shop } = useOffice()
  const now_ms = useMinute()
  if (job.asides.length === 0) return null
  return (
    <section class="o-part" aria-label={o.job.asides}>
      <h2>{o.job.asides}</h2>
      <ul class="o-list">
        {job.asides.map((one) => {
          const words = sayWhat(shop, one.what).join('')
          return (
            <li key={one.hash}>
              <Mark name="aside" />
              <div>
                <p>{words}</p>
                <small>
                  <strong>{o.what.aside(one.code)}</strong> · {personName(shop, one.by)},{' '}
                  {deviceName(shop, one.device)}, {when(one.at_ms, now_ms)}
                </small>
                <LinkButton
                  label={o.job.admit(words)}
                  onPress={() => onAsk({ act: 'admit', hashes: [one.hash], words })}
                >
                  {o.job.acts.admitKey}
                </LinkButton>
              </div>
            </li>
          )
        })}
      </ul>
    </section>
  )
}

export function JobRefused({ refused }: { refused: readonly RefusedText[] }): JSX.Element | null {
  const { shop } = useOffice()
  const now_ms = useMinute()
  if (refused.length === 0) return null
  return (
    <section class="o-part" aria-label={o.job.refused}>
      <h2>{o.job.refused}</h2>
      <ul class="o-list">
        {refused.map((one) => (
          <li key={one.text}>
            <span class="in-stop">
              <Mark name="refused" />
            </span>
            <div>
              <p>
                <strong>{one.message}</strong> {o.seen.code(one.code)}
              </p>
              <small>{o.job.refusedAt(deviceName(shop, one.device), when(one.received_ms, now_ms))}</small>
              <details class="o-details">
                <summary>{o.job.refusedText}</summary>
                <pre class="o-raw">{one.text}</pre>
              </details>
            </div>
          </li>
        ))}
      </ul>
    </section>
  )
}
