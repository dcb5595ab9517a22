// The number as it is typed, and beside it what it is held against: the last value here, or the earlier reading.
import type { JSX } from 'preact'
import type { ReadingAsk } from '../../core/method.ts'
import type { Value } from '../../core/views/answers.ts'
import type { Card } from '../../core/views/card.ts'
import { earlierOf, type Judged } from '../../core/views/reading_view.ts'
import { BigNumber } from '../parts/big_number.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { clockTime, scaled, unitName } from '../words/format.ts'

type FieldProps = {
  card: Card
  typed: string
  ask: ReadingAsk
  value: Value
  proposed: number | undefined
  judged: Judged | undefined
}

export function ReadingField({ card, typed, ask, value, proposed, judged }: FieldProps): JSX.Element {
  const shown =
    typed !== '' ? typed.replace('-', '−') : proposed === undefined ? '' : scaled(proposed, ask.decimals)
  const unit = unitName(ask.unit)
  return (
    <div class={shown === '' ? 'read-field read-empty' : 'read-field'}>
      <BigNumber text={shown} unit={unit} label={shown === '' ? askWords.reading.none : `${shown} ${unit}`} />
      <div class="read-beside">
        <Before ask={ask} value={value} />
        <Against card={card} ask={ask} point={value.point} judged={judged} />
      </div>
    </div>
  )
}

function Before({ ask, value }: { ask: ReadingAsk; value: Value }): JSX.Element | null {
  const before = value.known?.entry
  if (before?.kind !== 'reading' || !('value' in before.body)) return null
  return (
    <p class="read-before">
      <span class="soft">{askWords.reading.before(clockTime(before.at_ms))}</span>
      <span class="num">{scaled(before.body.value, ask.decimals)}</span>
    </p>
  )
}

type AgainstProps = { card: Card; ask: ReadingAsk; point: string; judged: Judged | undefined }

/** The earlier value with its step, and the difference as it is typed. */
function Against({ card, ask, point, judged }: AgainstProps): JSX.Element | null {
  const earlier = judged?.earlier ?? earlierOf(card, ask, point)
  if (earlier === undefined) return null
  const at = earlier.place ? w.card.step(earlier.place.number).toLowerCase() : ''
  if (earlier.value === undefined) return <p class="in-hot read-none">{askWords.reading.nothingBefore(at)}</p>
  return (
    <>
      <p class="read-before">
        <span class="soft">{askWords.reading.at(at)}</span>
        <span class="num">{scaled(earlier.value, ask.decimals)}</span>
      </p>
      <p class="read-before">
        <span class="soft">{askWords.reading.difference}</span>
        <span class="num">{judged?.amount === undefined ? '–' : signed(judged.amount, ask.decimals)}</span>
      </p>
    </>
  )
}

export function signed(value: number, decimals: number): string {
  return value > 0 ? `+${scaled(value, decimals)}` : scaled(value, decimals)
}
