// A lot: material, number and expiry as printed; a wrong or expired one is kept and marked, and does not answer.
import type { JSX } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { LotAsk } from '../../core/method.ts'
import { lot } from '../../core/views/drafts.ts'
import { faultsOf, lotsHere } from '../../core/views/lots_view.ts'
import { shelfLots } from '../../core/views/shelf_view.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { cleaned } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { date } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { dayOf, endOfDay } from './printed_day.ts'
import { AskHead, type AskProps, frameOf } from './text_screens.tsx'
import { useShelf } from './use_shelf.ts'

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
  const here = lotsHere(card, ask.of).map(({ body }) => body)
  const onShelf = shelfLots(useShelf(), ask.of)
    .filter((one) => !here.some((known) => known.lot === one.lot))
    .map(({ lot: printed, expires }) => ({ lot: printed, expires_ms: endOfDay(expires) }))
  const pick = (picked: Printed) => {
    setMaterial(ask.of)
    setNumber(picked.lot)
    setDay(dayOf(picked.expires_ms))
  }
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
        <Earlier head={askWords.lot.earlier} lots={here} onPick={pick} />
        <Earlier head={askWords.lot.shelf} lots={onShelf} onPick={pick} />
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
function Earlier(props: {
  head: string
  lots: readonly Printed[]
  onPick: (lot: Printed) => void
}): JSX.Element | null {
  if (props.lots.length === 0) return null
  return (
    <fieldset class="keys">
      <legend class="label-head">{props.head}</legend>
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
