// Lots: those on the shelf, which phones offer, and every lot that a job has recorded.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { byUrgency } from '../../core/views/calibration.ts'
import type { LotFacts, LotRow } from '../../office_api/rows.ts'
import { w } from '../words/en.ts'
import { lots as words } from '../words/office_en_stock.ts'
import { ChoiceField } from './choice_field.tsx'
import { Field, Form, Options } from './forms.tsx'
import { GoodUntil } from './good_until.tsx'
import { useMinute } from './office_clock.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Empty, SeenPage } from './page_parts.tsx'
import { RegisterPage } from './register_page.tsx'
import { ShopNav } from './shop_nav.tsx'
import { todayOf } from './today.ts'
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
  return (
    <>
      <ShopNav here="lots" />
      <RegisterPage
        words={words}
        fresh={NEW}
        nameOf={(row) => row.lot}
        refresh={refresh}
        form={(row, ends) => <LotForm row={row} materials={materials} {...ends} />}
      >
        {(change) => (
          <section class="o-stack" aria-label={words.shelf}>
            <h2>{words.shelf}</h2>
            <p class="o-note">{words.shelfNote}</p>
            <SeenPage seen={seen} refresh={refresh}>
              {(rows) =>
                rows.length === 0 ? (
                  <Empty words={words.shelfEmpty} next={words.shelfEmptyNext} />
                ) : (
                  <Shelf rows={rows} materials={materials} onChange={change} />
                )
              }
            </SeenPage>
          </section>
        )}
      </RegisterPage>
      <UsedLots materials={materials} />
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
  const now_ms = useMinute()
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
              {row.gone ? words.gone : <GoodUntil day={row.expires} today={today} words={words.standing} />}
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
  const { value, materials, onPick } = props
  const known = value === '' || materials.some((one) => one.id === value)
  const options = [
    { id: '', name: words.noMaterial },
    ...(known ? [] : [{ id: value, name: value }]),
    ...materials,
  ]
  return <ChoiceField name={words.material} value={value} options={options} onPick={onPick} />
}
