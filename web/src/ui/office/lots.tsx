// Lots: those on the shelf, which phones offer, and every lot that a job has recorded.
import type { JSX } from 'preact'
import { useId, useState } from 'preact/hooks'
import { byUrgency, daysUntil, standingOf } from '../../core/views/calibration.ts'
import type { LotFacts, LotRow } from '../../office_api/rows.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { date } from '../words/format.ts'
import { lots as words } from '../words/office_en_stock.ts'
import { Field, Form, Options } from './forms.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Empty, Head, SeenPage, Sheet } from './page_parts.tsx'
import { ShopNav } from './shop_nav.tsx'
import { noonOf, todayOf } from './today.ts'
import { useAct } from './use_act.ts'
import { type Material, useMaterials } from './use_materials.ts'
import { UsedLots } from './used_lots.tsx'
import './office_api.css'
import './office_methods.css'

const NEW: LotRow = { id: '', material: '', lot: '', expires: '', note: '', gone: false }

export function LotsScreen(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.lots, 0, 'lots')
  const materials = useMaterials()
  const [open, setOpen] = useState<LotRow>()
  const [saved, setSaved] = useState('')
  const done = (lot: string): void => {
    setOpen(undefined)
    setSaved(lot)
    refresh()
  }
  return (
    <>
      <ShopNav here="lots" />
      <Head title={words.title}>
        <button type="button" class="key key-main" onClick={() => setOpen(NEW)}>
          <span>{words.add}</span>
        </button>
      </Head>
      <p role="status">{saved !== '' && words.saved(saved)}</p>
      <section class="o-stack" aria-label={words.shelf}>
        <h2>{words.shelf}</h2>
        <p class="o-note">{words.shelfNote}</p>
        <SeenPage seen={seen} refresh={refresh}>
          {(rows) =>
            rows.length === 0 ? (
              <Empty words={words.shelfEmpty} next={words.shelfEmptyNext} />
            ) : (
              <Shelf rows={rows} materials={materials} onChange={setOpen} />
            )
          }
        </SeenPage>
      </section>
      <UsedLots materials={materials} />
      {open && (
        <Sheet title={open.id === '' ? words.add : words.change(open.lot)} onClose={() => setOpen(undefined)}>
          <LotForm row={open} materials={materials} onDone={done} onCancel={() => setOpen(undefined)} />
        </Sheet>
      )}
    </>
  )
}

const nameOf = (materials: readonly Material[], id: string): string =>
  materials.find((one) => one.id === id)?.name ?? id.replaceAll('_', ' ')

type ShelfProps = {
  rows: readonly LotRow[]
  materials: readonly Material[]
  onChange: (row: LotRow) => void
}

function Shelf({ rows, materials, onChange }: ShelfProps): JSX.Element {
  const { now_ms } = useOffice()
  const today = todayOf(now_ms)
  const used = byUrgency(
    rows.filter((row) => !row.gone),
    (row) => row.expires,
    today,
  )
  return (
    <table class="o-table" aria-label={words.shelf}>
      <thead>
        <tr>
          <th scope="col">{words.lot}</th>
          <th scope="col">{words.material}</th>
          <th scope="col">{words.expires}</th>
          <th scope="col">{words.note}</th>
          <th scope="col">{words.act}</th>
        </tr>
      </thead>
      <tbody>
        {[...used, ...rows.filter((row) => row.gone)].map((row) => (
          <tr key={row.id}>
            <th scope="row">{row.lot}</th>
            <td data-name={words.material}>{nameOf(materials, row.material)}</td>
            <td data-name={words.expires}>
              {row.gone ? words.gone : <Expires day={row.expires} today={today} />}
            </td>
            <td data-name={words.note}>{row.note || w.common.none}</td>
            <td>
              <button type="button" class="key key-plain" onClick={() => onChange(row)}>
                <span>{words.change(row.lot)}</span>
              </button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Expires({ day, today }: { day: string; today: string }): JSX.Element {
  if (day === '') return <span class="soft">{words.none}</span>
  const standing = standingOf(day, today)
  if (standing === 'good') return <>{date(noonOf(day))}</>
  return (
    <span class={standing === 'over' ? 'o-line in-stop' : 'o-line'}>
      <Mark name={standing === 'over' ? 'finding' : 'clock'} />
      <span>
        {date(noonOf(day))}, {standing === 'over' ? words.over : words.soon(daysUntil(day, today))}
      </span>
    </span>
  )
}

type FormProps = {
  row: LotRow
  materials: readonly Material[]
  onDone: (lot: string) => void
  onCancel: () => void
}

function LotForm({ row, materials, onDone, onCancel }: FormProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const { id, ...before } = row
  const [facts, setFacts] = useState<LotFacts>(before)
  const set = (change: Partial<LotFacts>): void => setFacts({ ...facts, ...change })
  const submit = (): void => {
    const said = { ...facts, lot: facts.lot.trim() }
    const lack = said.material === '' ? words.needMaterial : said.lot === '' ? words.needLot : ''
    if (lack !== '') act.lack(lack)
    else
      void act.run(
        () => desk.api.keepLot(id, said),
        () => onDone(said.lot),
      )
  }
  return (
    <Form act={act} submit={id === '' ? words.addKey : words.key} onSubmit={submit} onCancel={onCancel}>
      <MaterialField value={facts.material} materials={materials} onPick={(material) => set({ material })} />
      <Field name={words.lot} value={facts.lot} onType={(lot) => set({ lot })} />
      <Field
        name={words.expires}
        type="date"
        value={facts.expires}
        onType={(expires) => set({ expires })}
        note={words.expiresNote}
      />
      <Field name={words.note} value={facts.note} onType={(note) => set({ note })} />
      {id !== '' && (
        <Options
          name={words.gone}
          options={[{ id: 'gone', name: words.gone }]}
          chosen={facts.gone ? ['gone'] : []}
          onChange={(chosen) => set({ gone: chosen.length > 0 })}
        />
      )}
    </Form>
  )
}

function MaterialField(props: {
  value: string
  materials: readonly Material[]
  onPick: (material: string) => void
}): JSX.Element {
  const id = useId()
  const known = props.value === '' || props.materials.some((one) => one.id === props.value)
  return (
    <div class="o-field">
      <label for={id}>{words.material}</label>
      <select id={id} value={props.value} onChange={(event) => props.onPick(event.currentTarget.value)}>
        <option value="">{words.noMaterial}</option>
        {!known && <option value={props.value}>{props.value}</option>}
        {props.materials.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
    </div>
  )
}
