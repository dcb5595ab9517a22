// A lot: material, number and expiry as printed; a wrong or expired one is kept and marked, and does not answer.
import type { JSX } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { LotAsk } from '../../core/method.ts'
import { lot } from '../../core/views/drafts.ts'
import { faultsOf, lotsHere } from '../../core/views/lots_view.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { cleaned } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { date } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { AskHead, type AskProps, frameOf } from './text_screens.tsx'

/** Midnight at the end of the printed day, so that a lot is good on its last day. */
export function endOfDay(day: string): number {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number)
  return day === '' ? 0 : new Date(year, month - 1, date + 1).getTime() - 1
}

/** The day that ends at this instant, as a date field wants it. */
export function dayOf(end_ms: number): string {
  if (end_ms === 0) return ''
  const end = new Date(end_ms)
  const two = (n: number) => String(n).padStart(2, '0')
  return `${end.getFullYear()}-${two(end.getMonth() + 1)}-${two(end.getDate())}`
}

export function LotScreen(props: AskProps<LotAsk>): JSX.Element {
  const { card, place, ask, onDone } = props
  const { record, services } = usePhone()
  const ids = { number: useId(), expires: useId(), material: useId() }
  const [number, setNumber] = useState('')
  const [day, setDay] = useState('')
  const [material, setMaterial] = useState(ask.of)
  const [missing, setMissing] = useState(false)
  const expires_ms = endOfDay(day)
  const nameOf = (id: string) => place.method.materials.find((one) => one.id === id)?.name ?? id
  const faults = faultsOf(ask, { material, expires_ms }, services.device.clock.now().at_ms)
  const write = async () => {
    const printed = cleaned(number)
    setMissing(printed === '')
    if (printed === '') return document.getElementById(ids.number)?.focus()
    if (await record(card.job, [lot(place, ask, { material, lot: printed, expires_ms })])) onDone()
  }
  return (
    <Frame
      {...frameOf(props)}
      foot={
        <Key
          tone="main"
          onPress={() => void write()}
          small={faults.wrong || faults.expired ? askWords.lot.marked : undefined}
        >
          {askWords.lot.record}
        </Key>
      }
    >
      <Leaf>
        <AskHead place={place} name={ask.name} />
        <p>{askWords.lot.wanted(nameOf(ask.of))}</p>
        <Earlier
          lots={lotsHere(card, ask.of).map(({ body }) => body)}
          onPick={(picked) => {
            setMaterial(ask.of)
            setNumber(picked.lot)
            setDay(dayOf(picked.expires_ms))
          }}
        />
        <div class="field">
          <label for={ids.number}>{askWords.lot.number}</label>
          <input
            id={ids.number}
            value={number}
            autocomplete="off"
            autocapitalize="characters"
            aria-invalid={missing}
            onInput={(event) => setNumber(event.currentTarget.value)}
          />
          {missing && (
            <p class="field-fault" role="status">
              {askWords.lot.needNumber}
            </p>
          )}
        </div>
        <div class="field">
          <label for={ids.expires}>{askWords.lot.expires}</label>
          <input
            id={ids.expires}
            type="date"
            value={day}
            onInput={(event) => setDay(event.currentTarget.value)}
          />
          {day === '' && <p class="label soft">{w.card.lotLine.noExpiry}</p>}
        </div>
        <div class="field">
          <label for={ids.material}>{askWords.lot.material}</label>
          <select
            id={ids.material}
            value={material}
            onChange={(event) => setMaterial(event.currentTarget.value)}
          >
            {place.method.materials.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
        </div>
        {faults.expired && <StateWord state="finding" word={askWords.lot.expired} />}
        {faults.wrong && <StateWord state="finding" word={askWords.lot.wrong(nameOf(material))} />}
      </Leaf>
    </Frame>
  )
}

type Printed = { readonly lot: string; readonly expires_ms: number }

/** The same lot as earlier in this job is one press, not twelve letters. */
function Earlier(props: { lots: readonly Printed[]; onPick: (lot: Printed) => void }): JSX.Element | null {
  if (props.lots.length === 0) return null
  return (
    <fieldset class="keys">
      <legend class="label-head">{askWords.lot.earlier}</legend>
      {props.lots.map((one) => (
        <Key key={one.lot} class="key-row" onPress={() => props.onPick(one)} small={untilWords(one)}>
          {w.card.lotLine.lot(one.lot)}
        </Key>
      ))}
    </fieldset>
  )
}

function untilWords({ expires_ms }: Printed): string {
  return expires_ms === 0 ? w.card.lotLine.noExpiry : w.card.lotLine.until(date(expires_ms))
}
