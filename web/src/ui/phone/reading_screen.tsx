// The reading keypad: number with its unit, verdict in words, scale; outside a limit it asks for the reason.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { Entry } from '../../core/entries.ts'
import type { ReadingAsk } from '../../core/method.ts'
import { type AskView, isImplausible, isOutside, type Value, verdictOf } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { deviation, reading, refOf } from '../../core/views/drafts.ts'
import { BigNumber } from '../parts/big_number.tsx'
import { Key } from '../parts/key.tsx'
import { Keypad } from '../parts/keypad.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { Scale } from '../parts/scale.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { RecordKey, useWords } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { pageWords } from '../words/en_pages.ts'
import { capital, clockTime, quantity, scaled, typedValue, unitName } from '../words/format.ts'
import { verdictWords } from '../words/verdict.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { Verdict } from './reading_verdict.tsx'
import { paths } from './router.ts'

type ReadingProps = { card: Card; place: StepPlace; view: AskView; ask: ReadingAsk; onDone: () => void }

/** The points without a value one after another; where none lacks one, each in turn. */
export function ReadingScreen({ card, place, view, ask, onDone }: ReadingProps): JSX.Element | null {
  const missing = view.values.findIndex((value) => value.known === undefined)
  const [filling] = useState(missing !== -1)
  const [at, setAt] = useState(Math.max(0, missing))
  const value = view.values[at]
  if (value === undefined) return null
  const next = () => {
    const after = view.values.findIndex((one, i) => (filling ? i !== at && !one.known : i > at))
    if (after === -1) onDone()
    else setAt(after)
  }
  return (
    <OnePoint
      key={value.point}
      card={card}
      place={place}
      ask={ask}
      value={value}
      at={at}
      all={view.values.length}
      onNext={next}
    />
  )
}

type PointProps = {
  card: Card
  place: StepPlace
  ask: ReadingAsk
  value: Value
  at: number
  all: number
  onNext: () => void
}

function OnePoint({ card, place, ask, value, at, all, onNext }: PointProps): JSX.Element {
  const { record } = usePhone()
  const [typed, setTyped] = useState('')
  const [asked, setAsked] = useState<'' | 'plausible' | 'outside'>('')
  const amount = typedValue(typed, ask.decimals)
  const say = amount === undefined ? '' : quantity(amount, ask.decimals, ask.unit)
  const type = (change: (typed: string) => string) => {
    setTyped(change)
    setAsked('')
  }
  const write = async (reason?: string) => {
    if (amount === undefined) return
    const written = await recordReading({ card, place, ask, point: value.point, amount, reason, record })
    if (written) onNext()
  }
  const enter = () => {
    if (amount === undefined) return
    if (isImplausible(ask, amount) && asked === '') return setAsked('plausible')
    if (isOutside(verdictOf(ask, amount))) return setAsked('outside')
    void write()
  }
  const head = value.name === '' ? capital(ask.name) : askWords.reading.of(capital(value.name), at + 1, all)
  if (asked === 'outside' && amount !== undefined) {
    return (
      <OutsideReason
        card={card}
        place={place}
        ask={ask}
        amount={amount}
        head={head}
        onBack={() => setAsked('')}
        onReason={write}
      />
    )
  }
  return (
    <Frame
      act={`${place.step.id}/${ask.id}/${value.point}`}
      card={card}
      place={place}
      back={paths.step(card.job, place.method.id, place.step.id)}
      foot={
        <>
          <Keypad onTyped={type} decimals={ask.decimals > 0} negative={takesNegative(ask)} onEnter={enter} />
          <Key tone="main" waiting={amount === undefined} onPress={enter}>
            {amount === undefined
              ? w.common.record
              : asked === 'plausible'
                ? askWords.reading.yes(say)
                : askWords.reading.record(say)}
          </Key>
        </>
      }
    >
      <Leaf plain>
        <p class="stage">{value.name === '' ? place.step.title : capital(ask.name)}</p>
        <h1 class="act-small" tabIndex={-1}>
          {head}
        </h1>
        <Field typed={typed} ask={ask} value={value} />
        <Verdict ask={ask} typed={typed} amount={amount} asked={asked === 'plausible'} />
        <Scale min={ask.min} max={ask.max} value={amount} decimals={ask.decimals} />
      </Leaf>
    </Frame>
  )
}

/** A minus is offered where limits or the plausible range reach below zero, or none are set. */
function takesNegative(ask: ReadingAsk): boolean {
  const lowest = ask.plausible?.[0] ?? ask.min
  return lowest === undefined || lowest < 0
}

type RecordReading = {
  card: Card
  place: StepPlace
  ask: ReadingAsk
  point: string
  amount: number
  reason: string | undefined
  record: ReturnType<typeof usePhone>['record']
}

/** Outside its limits a reading goes with the deviation that names its hash, in one transaction. */
async function recordReading({ card, place, ask, point, amount, reason, record }: RecordReading) {
  const draft = reading(card, place, ask, point, amount)
  if (reason === undefined) return record(card.job, [draft])
  return record(card.job, [draft, (made) => deviation(refOf(place), reason, hashesOf(made), false)])
}

function hashesOf(made: readonly Entry[]): readonly string[] {
  return made.map((entry) => entry.hash)
}

function Field({ typed, ask, value }: { typed: string; ask: ReadingAsk; value: Value }): JSX.Element {
  const before = value.known?.entry
  const last = before?.kind === 'reading' && 'value' in before.body ? before.body.value : undefined
  return (
    <div class="read-field">
      <BigNumber
        text={typed.replace('-', '−') || '–'}
        unit={unitName(ask.unit)}
        label={typed === '' ? askWords.reading.none : `${typed} ${unitName(ask.unit)}`}
      />
      {before && last !== undefined && (
        <p class="read-before">
          <span class="soft">{askWords.reading.before(clockTime(before.at_ms))}</span>
          <span class="num">{scaled(last, ask.decimals)}</span>
        </p>
      )}
    </div>
  )
}

type OutsideProps = {
  card: Card
  place: StepPlace
  ask: ReadingAsk
  amount: number
  head: string
  onBack: () => void
  onReason: (reason: string) => Promise<void>
}

function OutsideReason({ card, place, ask, amount, head, onBack, onReason }: OutsideProps): JSX.Element {
  const input = useWords({ label: pageWords.deviationWhat })
  const say = quantity(amount, ask.decimals, ask.unit)
  return (
    <Frame
      act={`${place.step.id}/${ask.id}/outside`}
      card={card}
      place={place}
      back={paths.step(card.job, place.method.id, place.step.id)}
      foot={
        <>
          <RecordKey input={input} onWords={(words) => void onReason(words)}>
            {askWords.reading.record(say)}
          </RecordKey>
          <Key onPress={onBack}>{w.common.back}</Key>
        </>
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {askWords.reading.outside}
        </h1>
        <p>
          {head}: <strong>{say}</strong>
        </p>
        <StateWord state="finding" word={verdictWords(verdictOf(ask, amount), ask.decimals)} />
        <p>{pageWords.deviationFor(w.card.deviation)}</p>
        {input.field}
      </Leaf>
    </Frame>
  )
}
