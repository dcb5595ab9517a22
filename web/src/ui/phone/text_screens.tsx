// Text, choice and lot: large words, one key, and what stops the work opens a deviation.
import type { JSX } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { ChoiceAsk, ChoiceOption, LotAsk, TextAsk } from '../../core/method.ts'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { choice, deviation, lot, refOf, text } from '../../core/views/drafts.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { cleaned, RecordKey, useWords } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { pageWords } from '../words/en_pages.ts'
import { capital } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { paths } from './router.ts'

export type AskProps<A> = { card: Card; place: StepPlace; view: AskView; ask: A; onDone: () => void }

function frameOf({ card, place, ask }: AskProps<{ id: string }>, more = '') {
  return {
    act: `${card.job}/${place.step.id}/${ask.id}/${more}`,
    card,
    place,
    back: paths.step(card.job, place.method.id, place.step.id),
  }
}

function AskHead({ place, name }: { place: StepPlace; name: string }): JSX.Element {
  return (
    <>
      <p class="stage">{place.step.title}</p>
      <h1 class="act close" tabIndex={-1}>
        {capital(name)}
      </h1>
    </>
  )
}

export function TextScreen(props: AskProps<TextAsk>): JSX.Element {
  const { card, place, view, ask, onDone } = props
  const { record } = usePhone()
  const before = view.values[0]?.known?.entry
  const start = before?.kind === 'text' ? before.body.value : ''
  const input = useWords({
    label: capital(ask.name),
    start,
    rows: 3,
    missing: pageWords.textEmpty,
    quiet: true,
  })
  const write = async (words: string) => {
    if (await record(card.job, [text(card, place, ask.id, words)])) onDone()
  }
  return (
    <Frame
      {...frameOf(props)}
      foot={
        <RecordKey input={input} onWords={(words) => void write(words)}>
          {pageWords.textKey}
        </RecordKey>
      }
    >
      <Leaf>
        <AskHead place={place} name={ask.name} />
        {input.field}
      </Leaf>
    </Frame>
  )
}

export function ChoiceScreen(props: AskProps<ChoiceAsk>): JSX.Element {
  const { card, place, view, ask, onDone } = props
  const { record } = usePhone()
  const [stop, setStop] = useState<ChoiceOption>()
  const shown = view.values[0]?.known?.entry
  const chosen = shown?.kind === 'choice' ? shown.body.option : ''
  if (stop) return <StopReason {...props} option={stop} onBack={() => setStop(undefined)} />
  const pick = async (option: ChoiceOption) => {
    if (option.stop) return setStop(option)
    if (await record(card.job, [choice(card, place, ask, option.id)])) onDone()
  }
  return (
    <Frame {...frameOf(props)}>
      <Leaf>
        <AskHead place={place} name={ask.name} />
        <div class="keys">
          {ask.options.map((option) => (
            <Key
              key={option.id}
              class="key-choice"
              tone={option.stop ? 'stop' : 'plain'}
              pressed={chosen === '' ? undefined : chosen === option.id}
              onPress={() => void pick(option)}
              small={option.stop ? pageWords.choiceStop : undefined}
            >
              {capital(option.name)}
            </Key>
          ))}
        </div>
      </Leaf>
    </Frame>
  )
}

type StopProps = AskProps<ChoiceAsk> & { option: ChoiceOption; onBack: () => void }

/** An option that stops the work is recorded together with the deviation that says why. */
function StopReason(props: StopProps): JSX.Element {
  const { card, place, ask, option, onDone, onBack } = props
  const { record } = usePhone()
  const input = useWords({ label: pageWords.deviationWhat })
  const write = async (words: string) => {
    const drafts = [
      choice(card, place, ask, option.id),
      (made: readonly { hash: string }[]) =>
        deviation(
          refOf(place),
          words,
          made.map((one) => one.hash),
          false,
        ),
    ]
    if (await record(card.job, drafts)) onDone()
  }
  return (
    <Frame
      {...frameOf(props, 'stop')}
      foot={
        <>
          <RecordKey input={input} onWords={(words) => void write(words)}>
            {w.common.record}
          </RecordKey>
          <Key onPress={onBack}>{w.common.back}</Key>
        </>
      }
    >
      <Leaf>
        <AskHead place={place} name={pageWords.choiceStopAsks(option.name)} />
        <StateWord state="deviation" />
        <p>{pageWords.deviationFor(ask.name)}</p>
        {input.field}
      </Leaf>
    </Frame>
  )
}

/** Midnight at the end of the printed day, so that a lot is good on its last day. */
export function endOfDay(day: string): number {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number)
  return day === '' ? 0 : new Date(year, month - 1, date + 1).getTime() - 1
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
  const wanted = place.method.materials.find((one) => one.id === ask.of)?.name ?? ask.of
  const expired = expires_ms !== 0 && expires_ms < services.device.clock.now().at_ms
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
        <Key tone="main" onPress={() => void write()}>
          {askWords.lot.record}
        </Key>
      }
    >
      <Leaf>
        <AskHead place={place} name={ask.name} />
        <p>{askWords.lot.wanted(wanted)}</p>
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
          <p class="field-fault" role="status">
            {missing ? askWords.lot.needNumber : ''}
          </p>
        </div>
        <div class="field">
          <label for={ids.expires}>{askWords.lot.expires}</label>
          <input
            id={ids.expires}
            type="date"
            value={day}
            onInput={(event) => setDay(event.currentTarget.value)}
          />
          <p class="label soft">{day === '' ? w.card.lotLine.noExpiry : ''}</p>
        </div>
        {expired && <StateWord state="finding" word={askWords.lot.expired} />}
        {material !== ask.of && <StateWord state="finding" word={askWords.lot.wrong} />}
      </Leaf>
    </Frame>
  )
}
