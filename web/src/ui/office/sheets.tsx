// Suppliers' sheets of the shop: the newest of each material is in use, wrong ones are withdrawn, all stay readable.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { SheetRow, SheetRows } from '../../office_api/sheets.ts'
import { dateAndTime } from '../words/format.ts'
import { rowWords, withdrawWords, sheetWords as words } from '../words/office_en_sheets.ts'
import { personName, useOffice, useRoute } from './office_desk.ts'
import { Empty, SeenPage, Sheet } from './page_parts.tsx'
import { linkTo } from './place.ts'
import { SheetForm } from './sheet_form.tsx'
import { SheetWithdraw } from './sheet_withdraw.tsx'
import './office_api.css'
import './sheets.css'

export function Sheets(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.sheets, 0, 'sheets')
  const [adding, setAdding] = useState(false)
  const [said, setSaid] = useState('')
  const changed = (words: string): void => {
    setAdding(false)
    setSaid(words)
    refresh()
  }
  return (
    <section class="o-api" aria-label={words.title}>
      <div class="o-head">
        <h2>{words.title}</h2>
        {seen.value && (
          <div class="o-keys">
            <button type="button" class="key key-main" onClick={() => setAdding(true)}>
              <span>{words.add}</span>
            </button>
          </div>
        )}
      </div>
      <p>{words.intro}</p>
      <p role="status">{said}</p>
      <SeenPage seen={seen} refresh={refresh}>
        {(rows) => <List rows={rows} onWithdrawn={(name) => changed(withdrawWords.done(name))} />}
      </SeenPage>
      {adding && seen.value && (
        <Sheet title={words.add} onClose={() => setAdding(false)}>
          <SheetForm
            figures={seen.value.figures}
            onCancel={() => setAdding(false)}
            onDone={(name) => changed(words.added(name))}
          />
        </Sheet>
      )}
    </section>
  )
}

type OnWithdrawn = (name: string) => void

function List(props: { rows: SheetRows; onWithdrawn: OnWithdrawn }): JSX.Element {
  const { sheets } = props.rows
  if (sheets.length === 0) return <Empty words={words.empty} next={words.emptyNext} />
  return (
    <>
      {sheets.map((row) => (
        <One key={row.id} row={row} onWithdrawn={props.onWithdrawn} />
      ))}
    </>
  )
}

function One({ row, onWithdrawn }: { row: SheetRow; onWithdrawn: OnWithdrawn }): JSX.Element {
  const { shop } = useOffice()
  const [open, setOpen] = useState(false)
  return (
    <details class="o-api-one" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <strong>{row.name}</strong>{' '}
        <small>
          {row.material.replaceAll('_', ' ')}: {words.line(row.sheet, row.revision, row.dated)},{' '}
          {words.standing(row)}
        </small>
      </summary>
      {row.about !== '' && <p>{row.about}</p>}
      <p class="o-note">{words.entered(dateAndTime(row.made_ms), personName(shop, row.by))}</p>
      {row.withdrawn_ms > 0 && (
        <p>
          {withdrawWords.withdrawn(
            dateAndTime(row.withdrawn_ms),
            personName(shop, row.withdrawn_by),
            row.why,
          )}
        </p>
      )}
      {row.table && (
        <ul class="o-plain">
          {row.table.rows.map((one) => (
            <li key={one.length}>{rowWords.row(one, row.table?.decimals ?? 0)}</li>
          ))}
        </ul>
      )}
      {row.values.length > 0 && (
        <dl class="o-api-fields">
          {row.values.map((one) => (
            <div key={one.name}>
              <dt>{words.figureName(one.name)}</dt>
              <dd>{words.figure(one)}</dd>
            </div>
          ))}
        </dl>
      )}
      {open && <Jobs digest={row.digest} />}
      {open && row.withdrawn_ms === 0 && <SheetWithdraw row={row} onDone={() => onWithdrawn(row.name)} />}
    </details>
  )
}

function Jobs({ digest }: { digest: string }): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(() => desk.api.sheetJobs(digest), 0, `sheet ${digest}`)
  return (
    <>
      <h3>{words.jobs}</h3>
      <SeenPage seen={seen} refresh={refresh}>
        {(jobs) =>
          jobs.length === 0 ? (
            <p>{words.noJobs}</p>
          ) : (
            <ul class="o-plain">
              {jobs.map((one) => (
                <li key={one.job}>
                  <a href={linkTo.job(one.job)}>{one.order}</a>: {words.jobLots(one.lots)},{' '}
                  {words.jobResults(one.results)}
                  {one.filed_ms > 0 && `, ${words.filed}`}
                </li>
              ))}
            </ul>
          )
        }
      </SeenPage>
    </>
  )
}
