/**
 * What was done outside a clock of a bond: rivets after the open time, a reading before or after its window, adhesive
 * from a mixer that had set. For the office, which has no clock running.
 */
import { MS_PER_MIN } from '../computations/figures.ts'
import type { ReadingAsk } from '../method.ts'
import { apart } from './apart.ts'
import { type BondClock, type BondWindow, bondClocksOf, type LateAct } from './bond_clocks.ts'
import { type Card, type Known, knownOf, registerOf, type StepPlace } from './card.ts'
import { mixerOf } from './mixer_clock.ts'

export type DoneOutside =
  | { readonly kind: 'rivets'; readonly late: readonly LateAct[]; readonly max_ms: number }
  | { readonly kind: 'mixer'; readonly known: Known; readonly stood_ms: number; readonly gel_ms: number }
  | {
      readonly kind: 'reading'
      readonly place: StepPlace
      readonly ask: ReadingAsk
      readonly known: Known
      readonly took_ms: number
      readonly window: BondWindow
    }

export function doneOutside(card: Card): readonly DoneOutside[] {
  const { late, gel_ms } = mixerOf(card)
  return [
    ...bondClocksOf(card).flatMap((clock) => outsideClock(card, clock)),
    ...(gel_ms === undefined ? [] : late.map((one) => ({ kind: 'mixer' as const, gel_ms, ...one }))),
  ]
}

function outsideClock(card: Card, clock: BondClock): readonly DoneOutside[] {
  const max_ms = clock.windows.at(-1)?.max_ms ?? 0
  return [
    ...clock.windows.flatMap((window) => readingOutside(card, clock, window)),
    ...(clock.late.length > 0 ? [{ kind: 'rivets' as const, late: clock.late, max_ms }] : []),
  ]
}

/** By what was recorded, in whole steps of its unit. */
function readingOutside(card: Card, { started }: BondClock, window: BondWindow): readonly DoneOutside[] {
  const { place, ask, min_ms, max_ms } = window
  const known = knownOf(card, registerOf(card, place, 'reading', ask.id)?.shown ?? '')
  if (known?.entry.kind !== 'reading' || !('value' in known.entry.body)) return []
  const unit_ms = ask.unit === 'h' ? 60 * MS_PER_MIN : ask.unit === 's' ? 1000 : MS_PER_MIN
  const took_ms = (known.entry.body.value * unit_ms) / 10 ** ask.decimals
  const isOutside = took_ms < min_ms || took_ms > max_ms
  return isOutside && apart(started, known) >= 0
    ? [{ kind: 'reading', place, ask, known, took_ms, window }]
    : []
}
