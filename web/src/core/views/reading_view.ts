/** What a typed value means: against its limits, against an earlier reading, and since an earlier answer. */
import type { AnswerRef, ReadingAsk } from '../method.ts'
import type { RegisterState } from '../state.ts'
import { type Card, type Known, knownOf, placeOf, type StepPlace } from './card.ts'
import { isOutside, type Verdict, verdictOf } from './limits.ts'

/** The earlier value that a reading is held against; `known` is undefined while nobody recorded it. */
export type Earlier = {
  readonly place: StepPlace | undefined
  readonly known: Known | undefined
  readonly value: number | undefined
}

export type Judged = {
  readonly verdict: Verdict
  /** What the limits hold for: the value itself, or its difference from the earlier one. */
  readonly amount: number | undefined
  readonly earlier: Earlier | undefined
}

export function earlierOf(card: Card, ask: ReadingAsk, point: string): Earlier | undefined {
  if (ask.against === undefined) return undefined
  const { method, step } = ask.against
  const place = placeOf(card, method, step)
  const known = answerAt(card, ask.against, ask.against.point ?? point, 'reading')
  const body = known?.entry.kind === 'reading' ? known.entry.body : undefined
  return { place, known, value: body !== undefined && 'value' in body ? body.value : undefined }
}

/** A difference stands over the same limits as a value: both are integers of one scale. */
export function judged(card: Card, ask: ReadingAsk, point: string, value: number): Judged {
  const earlier = earlierOf(card, ask, point)
  if (earlier === undefined) return { verdict: verdictOf(ask, value), amount: value, earlier }
  if (earlier.value === undefined) return { verdict: { is: 'no_limits' }, amount: undefined, earlier }
  const amount = value - earlier.value
  return { verdict: verdictOf(ask, amount), amount, earlier }
}

export function isJudgedOutside(card: Card, ask: ReadingAsk, point: string, value: number): boolean {
  return isOutside(judged(card, ask, point, value).verdict)
}

/** Where the time of a `since` reading begins; `known` is undefined while nobody answered there. */
export type Since = {
  readonly place: StepPlace | undefined
  readonly ask: string
  readonly known: Known | undefined
}

export function sinceOf(card: Card, ask: ReadingAsk): Since | undefined {
  if (ask.since === undefined) return undefined
  const { method, step, point = '' } = ask.since
  const place = placeOf(card, method, step)
  const of = place?.step.asks.find((one) => one.id === ask.since?.ask)
  const kind = of === undefined ? undefined : ANSWERED_BY[of.kind]
  return { place, ask: of?.name ?? '', known: kind && answerAt(card, ask.since, point, kind) }
}

const ANSWERED_BY: Partial<Record<string, RegisterState['kind']>> = {
  tick: 'tick',
  text: 'text',
  choice: 'choice',
  reading: 'reading',
  compute: 'result',
}

function answerAt(card: Card, at: AnswerRef, point: string, kind: RegisterState['kind']): Known | undefined {
  const register = card.state.registers.find(
    (one) =>
      one.kind === kind &&
      one.method === at.method &&
      one.step === at.step &&
      one.ask === at.ask &&
      one.point === point,
  )
  return knownOf(card, register?.shown ?? '')
}

const UNIT_MS: Record<string, number> = { s: 1_000, min: 60_000, h: 3_600_000, d: 86_400_000 }

/** Elapsed time in whole units of the ask, scaled by its decimals; undefined for a unit that is no time. */
export function elapsedIn(
  ask: Pick<ReadingAsk, 'unit' | 'decimals'>,
  elapsed_ms: number,
): number | undefined {
  const unit_ms = UNIT_MS[ask.unit]
  return unit_ms === undefined ? undefined : Math.floor(elapsed_ms / unit_ms) * 10 ** ask.decimals
}
