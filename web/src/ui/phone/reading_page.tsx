// The reading keypad of one point: number with its unit, what it is held against, verdict in words, scale.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { ReadingAsk } from '../../core/method.ts'
import type { Value } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { isImplausible, isOutside } from '../../core/views/limits.ts'
import { judged } from '../../core/views/reading_view.ts'
import { Key } from '../parts/key.tsx'
import { Keypad } from '../parts/keypad.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { Scale } from '../parts/scale.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { capital, quantity } from '../words/format.ts'
import { typedValue } from '../words/typed.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { OutsideReason, recordReading } from './outside_reason.tsx'
import { PointStrip } from './point_strip.tsx'
import './reading.css'
import { ReadingField } from './reading_field.tsx'
import { Verdict } from './reading_verdict.tsx'
import { paths } from './router.ts'
import { SinceLine, useProposal } from './since_line.tsx'

type PageProps = {
  card: Card
  place: StepPlace
  ask: ReadingAsk
  values: readonly Value[]
  at: number
  typed: string
  onTyped: (change: (typed: string) => string) => void
  onPoint: (at: number) => void
  onNext: () => void
}

export function ReadingPage(props: PageProps): JSX.Element | null {
  const { card, place, ask, values, at, typed, onTyped, onPoint, onNext } = props
  const { record } = usePhone()
  const [asked, setAsked] = useState<'' | 'plausible' | 'outside'>('')
  const proposal = useProposal(card, ask, values[at]?.known)
  const value = values[at]
  if (value === undefined) return null
  const proposed = typed === '' ? proposal?.value : undefined
  const amount = typedValue(typed, ask.decimals) ?? proposed
  const now = amount === undefined ? undefined : judged(card, ask, value.point, amount)
  const say = amount === undefined ? '' : quantity(amount, ask.decimals, ask.unit)
  const write = async (reason?: string) => {
    if (amount === undefined) return
    if (await recordReading({ card, place, ask, point: value.point, amount, reason, record })) onNext()
  }
  const enter = () => {
    if (amount === undefined) return
    if (isImplausible(ask, amount) && asked === '') return setAsked('plausible')
    if (now && isOutside(now.verdict)) return setAsked('outside')
    void write()
  }
  const head =
    value.name === '' ? capital(ask.name) : askWords.reading.of(capital(value.name), at + 1, values.length)
  if (asked === 'outside' && now !== undefined) {
    return (
      <OutsideReason
        card={card}
        place={place}
        ask={ask}
        say={say}
        judged={now}
        head={head}
        onBack={() => setAsked('')}
        onReason={write}
      />
    )
  }
  const type = (change: (typed: string) => string) => {
    onTyped(change)
    setAsked('')
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
        {values.length > 1 && <PointStrip values={values} ask={ask} card={card} at={at} onPoint={onPoint} />}
        <div class={value.name === '' ? undefined : 'point-head'}>
          <p class="stage">{value.name === '' ? place.step.title : capital(ask.name)}</p>
          <h1 class="act-small" tabIndex={-1}>
            {head}
          </h1>
        </div>
        <ReadingField typed={typed} ask={ask} value={value} proposed={proposed} judged={now} card={card} />
        {proposal && <SinceLine proposal={proposal} ask={ask} typed={typed !== ''} />}
        <Verdict ask={ask} typed={typed} judged={now} asked={asked === 'plausible'} />
        <Scale min={ask.min} max={ask.max} value={now?.amount} decimals={ask.decimals} />
      </Leaf>
    </Frame>
  )
}

/** A minus is offered where the value itself can be below zero, or nothing says that it cannot. */
function takesNegative(ask: ReadingAsk): boolean {
  const lowest = ask.plausible?.[0] ?? (ask.against === undefined ? ask.min : undefined)
  return lowest === undefined || lowest < 0
}
