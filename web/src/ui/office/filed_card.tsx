// One filed job in the list: what and when, why incomplete, its seal, what came since, and what it supersedes.
import type { JSX } from 'preact'
import { dossierUrl, reportUrl } from '../../office_api/client.ts'
import type { FiledRow, FoundBy, SealedDossier } from '../../office_api/rows.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { bytes, dateAndTime, grouped, listed } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { orderClass } from './part_name.ts'
import { linkTo } from './place.ts'

export function FiledCard({ row }: { row: FiledRow }): JSX.Element {
  return (
    <article class="o-filed" aria-label={w.card.job(row.order)}>
      <a class={orderClass(row.order)} href={linkTo.job(row.job)}>
        {row.order}
      </a>
      <div class="o-filed-what">
        <p>
          <strong>{row.part}</strong>
          {row.vin !== '' && ` · ${o.job.vin} ${row.vin}`} · {o.filed.at(dateAndTime(row.filed_ms))}
        </p>
        <Found by={row.found_by} />
        <p class={row.reason === '' ? 'soft' : 'o-reason'}>
          {row.reason === '' ? o.filed.complete : o.filed.incomplete(row.reason)}
        </p>
        <Since row={row} />
        <Seal row={row} />
        <Earlier earlier={row.earlier} />
      </div>
      <div class="o-keys o-filed-keys">
        <a
          class="key key-plain"
          href={reportUrl(row.dossier)}
          target="_blank"
          rel="noreferrer"
          aria-label={o.filed.reportOf(row.order)}
        >
          <span>{o.filed.report}</span>
        </a>
        <a
          class="key key-plain"
          href={dossierUrl(row.dossier)}
          download=""
          aria-label={o.filed.download(row.order)}
        >
          <span>{o.filed.dossier}</span>
        </a>
      </div>
    </article>
  )
}

function Found({ by }: { by: readonly FoundBy[] }): JSX.Element | null {
  const said = by.filter((one) => one.said !== '').map((one) => o.filed.by[one.field](one.said))
  return said.length === 0 ? null : <p class="o-note">{o.filed.foundBy(listed(said))}</p>
}

function Since({ row }: { row: FiledRow }): JSX.Element | null {
  if (row.after_filing === 0) return null
  return (
    <p class="o-line">
      <Mark name="late" />
      <span>
        <strong>{o.filed.after(row.after_filing)}</strong>
        {row.late_ms !== null && ` ${o.filed.firstCame(dateAndTime(row.late_ms))}`}{' '}
        <a class="o-link" href={linkTo.job(row.job)}>
          {o.filed.toAddendum}
        </a>
      </span>
    </p>
  )
}

/** The fingerprint is compared by eye, so it is shown; it is read once, so it stands folded away. */
function Seal({ row }: { row: FiledRow }): JSX.Element {
  return (
    <details class="o-details">
      <summary>{o.filed.sealOf(bytes(row.bytes))}</summary>
      <dl class="o-facts">
        <dt>{o.filed.seal}</dt>
        <dd class="o-hex">{grouped(row.seal_fingerprint)}</dd>
        <dt>{o.filed.sha}</dt>
        <dd class="o-hex">{grouped(row.sha256)}</dd>
      </dl>
      <p class="o-note">{o.filed.note}</p>
    </details>
  )
}

function Earlier({ earlier }: { earlier: readonly SealedDossier[] }): JSX.Element | null {
  if (earlier.length === 0) return null
  return (
    <ul class="o-list">
      {earlier.map((one) => (
        <li key={one.dossier}>
          <Mark name="filed" />
          <p>
            {o.filed.superseded(dateAndTime(one.filed_ms))}{' '}
            <a class="o-link" href={reportUrl(one.dossier)} target="_blank" rel="noreferrer">
              {o.filed.report}
            </a>{' '}
            <a class="o-link" href={dossierUrl(one.dossier)} download="">
              {o.filed.dossier}
            </a>
          </p>
        </li>
      ))}
    </ul>
  )
}
