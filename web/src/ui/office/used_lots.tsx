// Which jobs used which lots: searched for a recall.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { UsedLot } from '../../office_api/rows.ts'
import { Mark } from '../parts/mark.tsx'
import { date, dateAndTime } from '../words/format.ts'
import { lots as words } from '../words/office_en_stock.ts'
import { Field } from './forms.tsx'
import { personName, useOffice, useRoute } from './office_desk.ts'
import { Empty, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'
import type { Material } from './use_materials.ts'

const TYPING_MS = 300
const MOST = 1000

export function UsedLots({ materials }: { materials: readonly Material[] }): JSX.Element {
  const { desk } = useOffice()
  const [typed, setTyped] = useState('')
  const [asked, setAsked] = useState('')
  useEffect(() => {
    const timer = setTimeout(() => setAsked(typed.trim()), TYPING_MS)
    return () => clearTimeout(timer)
  }, [typed])
  const { seen, refresh } = useRoute(() => desk.api.usedLots(asked), 0, `used ${asked}`)
  return (
    <section class="o-stack" aria-label={words.used}>
      <h2>{words.used}</h2>
      <p class="o-note">{words.usedNote}</p>
      <search class="o-api-search">
        <Field name={words.search} value={typed} onType={setTyped} />
      </search>
      <SeenPage seen={seen} refresh={refresh}>
        {(rows) =>
          rows.length === 0 ? (
            <Empty words={asked === '' ? words.usedEmpty : words.usedNone} next="" />
          ) : (
            <UsedTable rows={rows} materials={materials} />
          )
        }
      </SeenPage>
    </section>
  )
}

function UsedTable(props: { rows: readonly UsedLot[]; materials: readonly Material[] }): JSX.Element {
  const { rows, materials } = props
  const { shop } = useOffice()
  const nameOf = (id: string): string => materials.find((one) => one.id === id)?.name ?? id
  return (
    <>
      <p role="status">
        {words.found(rows.length, new Set(rows.map((row) => row.job)).size)}
        {rows.length === MOST && ` ${words.most}`}
      </p>
      <table class="o-table" aria-label={words.used}>
        <thead>
          <tr>
            <th scope="col">{words.lot}</th>
            <th scope="col">{words.material}</th>
            <th scope="col">{words.job}</th>
            <th scope="col">{words.step}</th>
            <th scope="col">{words.expires}</th>
            <th scope="col">{words.when}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.hash}>
              <th scope="row">
                {row.state === 'stands' ? row.lot : <del>{row.lot}</del>}
                {words.state[row.state] !== '' && <small>{words.state[row.state]}</small>}
              </th>
              <td data-name={words.material}>{nameOf(row.material)}</td>
              <td data-name={words.job}>
                <a href={linkTo.job(row.job)}>{row.order}</a>
                {row.filed_ms > 0 && <small>{words.filed}</small>}
              </td>
              <td data-name={words.step}>
                {row.step}
                <small>{row.method}</small>
              </td>
              <td data-name={words.expires}>
                <ExpiresCell row={row} />
              </td>
              <td data-name={words.when}>
                {dateAndTime(row.at_ms)}
                <small>{personName(shop, row.by)}</small>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

function ExpiresCell({ row }: { row: UsedLot }): JSX.Element {
  if (row.expires_ms === 0) return <span class="soft">{words.standing.unknown}</span>
  if (row.expires_ms >= row.at_ms) return <>{date(row.expires_ms)}</>
  return (
    <span class="o-line in-stop">
      <Mark name="finding" />
      <span>
        {date(row.expires_ms)}, {words.atOnce}
      </span>
    </span>
  )
}
