// Instruments: which are due for calibration, and the register of all.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { byUrgency, standingOf } from '../../core/views/calibration.ts'
import type { InstrumentFacts, InstrumentRow } from '../../office_api/rows.ts'
import { w } from '../words/en.ts'
import { instruments as words } from '../words/office_en_stock.ts'
import { Field, Form, Options } from './forms.tsx'
import { GoodUntil } from './good_until.tsx'
import { useMinute } from './office_clock.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Empty, SeenPage } from './page_parts.tsx'
import { RegisterPage } from './register_page.tsx'
import { ShopNav } from './shop_nav.tsx'
import { todayOf } from './today.ts'
import { useAct } from './use_act.ts'
import './office_api.css'

const NEW: InstrumentRow = { id: '', number: '', kind: '', calibrated_until: '', note: '', gone: false }

export function InstrumentsScreen(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.instruments, 0, 'instruments')
  return (
    <>
      <ShopNav here="instruments" />
      <RegisterPage
        words={words}
        fresh={NEW}
        nameOf={(row) => row.number}
        refresh={refresh}
        form={(row, ends) => <InstrumentForm row={row} {...ends} />}
      >
        {(change) => (
          <SeenPage seen={seen} refresh={refresh}>
            {(rows) =>
              rows.length === 0 ? (
                <Empty words={words.empty} next={words.emptyNext} />
              ) : (
                <Register rows={rows} onChange={change} />
              )
            }
          </SeenPage>
        )}
      </RegisterPage>
    </>
  )
}

type RegisterProps = { rows: readonly InstrumentRow[]; onChange: (row: InstrumentRow) => void }

function Register({ rows, onChange }: RegisterProps): JSX.Element {
  const now_ms = useMinute()
  const today = todayOf(now_ms)
  const used = byUrgency(
    rows.filter((row) => !row.gone),
    (row) => row.calibrated_until,
    today,
  )
  const how = (standing: string): number =>
    used.filter((row) => standingOf(row.calibrated_until, today) === standing).length
  return (
    <>
      <p>
        <strong>{words.due(how('over'), how('soon'))}</strong>
      </p>
      <table class="o-table" aria-label={words.title}>
        <thead>
          <tr>
            <th scope="col">{words.number}</th>
            <th scope="col">{words.kind}</th>
            <th scope="col">{words.until}</th>
            <th scope="col">{words.note}</th>
            <th scope="col">{words.act}</th>
          </tr>
        </thead>
        <tbody>
          {[...used, ...rows.filter((row) => row.gone)].map((row) => (
            <tr key={row.id}>
              <th scope="row">{row.number}</th>
              <td data-name={words.kind}>{row.kind}</td>
              <td data-name={words.until}>
                {row.gone ? (
                  words.gone
                ) : (
                  <GoodUntil day={row.calibrated_until} today={today} words={words.standing} />
                )}
              </td>
              <td data-name={words.note}>{row.note || w.common.none}</td>
              <td>
                <button type="button" class="key key-plain" onClick={() => onChange(row)}>
                  <span>{words.change(row.number)}</span>
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

type FormProps = { row: InstrumentRow; onDone: (number: string) => void; onCancel: () => void }

function InstrumentForm({ row, onDone, onCancel }: FormProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const { id, ...before } = row
  const [facts, setFacts] = useState<InstrumentFacts>(before)
  const set = (change: Partial<InstrumentFacts>): void => setFacts({ ...facts, ...change })
  const submit = (): void => {
    const said = { ...facts, number: facts.number.trim(), kind: facts.kind.trim() }
    const lack = said.number === '' ? words.needNumber : said.kind === '' ? words.needKind : ''
    if (lack !== '') act.lack(lack)
    else
      void act.run(
        () => desk.api.keepInstrument(id, said),
        () => onDone(said.number),
      )
  }
  return (
    <Form act={act} submit={id === '' ? words.addKey : words.key} onSubmit={submit} onCancel={onCancel}>
      <Field name={words.number} value={facts.number} onType={(number) => set({ number })} />
      <Field name={words.kind} value={facts.kind} onType={(kind) => set({ kind })} note={words.kindNote} />
      <Field
        name={words.until}
        type="date"
        value={facts.calibrated_until}
        onType={(calibrated_until) => set({ calibrated_until })}
        note={words.untilNote}
      />
      <Field name={words.note} value={facts.note} onType={(note) => set({ note })} />
      {id !== '' && (
        <Options
          name={words.gone}
          options={[{ id: 'gone', name: words.gone, note: words.goneNote }]}
          chosen={facts.gone ? ['gone'] : []}
          onChange={(chosen) => set({ gone: chosen.length > 0 })}
        />
      )}
    </Form>
  )
}
