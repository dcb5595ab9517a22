/**
 * Clocks of a bond: each runs from an answer that some reading counts its time from, against that reading's limits.
 *
 * Surface since abrading, primer since its coat, open time since the first gram: the method says which, by its `since`
 * readings. The open time ends no later than the computation says at this temperature. A new mixer is no answer that
 * anything counts from, so it restarts nothing. Minutes come from entries: a clock survives reload, kill and sleep.
 */

import { readClock } from '../computations/bond_clock.ts'
import { MS_PER_MIN } from '../computations/figures.ts'
import { openMinutes } from '../computations/open_time.ts'
import type { Entry } from '../entries.ts'
import type { AnswerRef, Ask, ComputeAsk, ReadingAsk } from '../method.ts'
import { apart } from './apart.ts'
import { askOf, type Card, type Known, type StepPlace } from './card.ts'
import { computeViewOf } from './compute_view.ts'
import { leftOf, type PlannedStep, plannedSteps } from './planned_time.ts'
import { sinceOf } from './reading_view.ts'

/** A time by which something must be done, or before which it must not. */
export type BondWindow = {
  readonly place: StepPlace
  readonly ask: ReadingAsk
  readonly min_ms: number
  readonly max_ms: number
  /** The open time at this temperature is shorter than the method's own limit. */
  readonly shortened: boolean
  readonly answered: boolean
  /** What is not done of the way there, by the method's minutes. */
  readonly way: readonly PlannedStep[]
}
/** A rivet that was set after the last window closed. */
export type LateAct = { readonly position: string; readonly known: Known; readonly minute: number }
export type BondClock = {
  readonly id: string
  readonly source: { readonly place: StepPlace; readonly ask: Ask }
  readonly started: Known
  /** By their ends, the first to close first. */
  readonly windows: readonly BondWindow[]
  /** The first window that is still open to be answered; a clock without one runs no more. */
  readonly next: BondWindow | undefined
  /** What the rehearsal took, while all of it still lies ahead; 0 = nothing is known. */
  readonly ahead_ms: number
  readonly late: readonly LateAct[]
  /** The adhesive's own clock, until its first window is answered: a mixer may stand. */
  readonly mixing: boolean
}

export type BondStand = {
  readonly is: 'too_early' | 'open' | 'closing' | 'ends_outside' | 'over'
  /** Until it opens, until it closes, or since it closed. */
  readonly ms: number
  /** What would end outside: where its window closes, how long it takes, and by what that is known. */
  readonly outside?: {
    readonly place: StepPlace
    readonly takes_ms: number
    readonly by: 'rehearsal' | 'plan'
  }
}

const UNIT_MS: Readonly<Record<string, number>> = { s: 1_000, min: MS_PER_MIN, h: 60 * MS_PER_MIN }
const SHORT_MS = 60 * MS_PER_MIN
const WARN_SHORT_MS = 2 * MS_PER_MIN
const WARN_LONG_MS = 10 * MS_PER_MIN

/** Every clock that was started, those that still run first. */
export function bondClocksOf(card: Card): readonly BondClock[] {
  const bySource = new Map<string, { readonly place: StepPlace; readonly ask: ReadingAsk }[]>()
  for (const place of card.steps) {
    for (const ask of place.step.asks) {
      if (ask.kind !== 'reading' || ask.since === undefined || UNIT_MS[ask.unit] === undefined) continue
      if (place.state.not_asked.includes(ask.id)) continue
      const id = refName(ask.since)
      bySource.set(id, [...(bySource.get(id) ?? []), { place, ask }])
    }
  }
  const clocks = [...bySource].flatMap(([id, readings]) => clockOf(card, id, readings) ?? [])
  return clocks.sort((a, b) => Number(a.next === undefined) - Number(b.next === undefined))
}

/**
 * Where a clock stands for its next window. What was rehearsed goes from the bead to the first rivets: while all of it
 * lies ahead it must still end before the last window does. Else the way to each window, by the method's minutes, must.
 */
export function standOf(clock: BondClock, elapsed_ms: number): BondStand | undefined {
  const { next } = clock
  if (next === undefined) return undefined
  const now = readClock(next, elapsed_ms)
  const outside = outsideOf(clock, elapsed_ms)
  if (now.stand === 'over') return { is: 'over', ms: elapsed_ms - next.max_ms }
  if (outside === undefined && now.stand === 'too_early') return { is: 'too_early', ms: now.wait_ms }
  if (now.left_ms <= (next.max_ms <= SHORT_MS ? WARN_SHORT_MS : WARN_LONG_MS))
    return { is: 'closing', ms: now.left_ms }
  return outside ?? { is: 'open', ms: now.left_ms }
}

function outsideOf({ windows, ahead_ms }: BondClock, elapsed_ms: number): BondStand | undefined {
  const last = windows.at(-1)
  const ways =
    ahead_ms > 0 && last !== undefined
      ? [{ window: last, takes_ms: ahead_ms, by: 'rehearsal' as const }]
      : windows
          .filter(({ answered }) => !answered)
          .map((window) => ({ window, takes_ms: leftOf(window.way, elapsed_ms), by: 'plan' as const }))
  for (const { window, takes_ms, by } of ways) {
    const found = readClock(window, elapsed_ms, takes_ms)
    if (!found.endsOutside || takes_ms === 0) continue
    return { is: 'ends_outside', ms: found.left_ms, outside: { place: window.place, takes_ms, by } }
  }
  return undefined
}

function clockOf(
  card: Card,
  id: string,
  readings: readonly { readonly place: StepPlace; readonly ask: ReadingAsk }[],
): BondClock | undefined {
  const [first] = readings
  const since = first && sinceOf(card, first.ask)
  const source = since?.place
  const started = since?.known
  const ask = source && first?.ask.since && askOf(source, first.ask.since.ask)
  if (source === undefined || ask === undefined || started === undefined) return undefined
  const open = openTimeOf(card, source, ask)
  const windows = readings
    .map((one) => ({
      ...windowOf(one.place, one.ask, open?.open_ms),
      way: plannedSteps(card, source, one.place, started),
    }))
    .sort((a, b) => a.max_ms - b.max_ms)
  return {
    id,
    source: { place: source, ask },
    started,
    windows,
    next: windows.find((one) => !one.answered),
    ahead_ms: open === undefined ? 0 : aheadOf(card, source, open.rehearsal_ms),
    mixing: open !== undefined && windows[0]?.answered === false,
    late: open === undefined ? [] : lateOf(card, started, windows.at(-1)?.max_ms ?? open.open_ms),
  }
}

function windowOf(place: StepPlace, ask: ReadingAsk, open_ms: number | undefined): Omit<BondWindow, 'way'> {
  const unit_ms = (UNIT_MS[ask.unit] ?? 0) / 10 ** ask.decimals
  const own_ms = ask.max === undefined ? Number.POSITIVE_INFINITY : ask.max * unit_ms
  const max_ms = Math.min(own_ms, open_ms ?? Number.POSITIVE_INFINITY)
  return {
    place,
    ask,
    min_ms: (ask.min ?? 0) * unit_ms,
    max_ms,
    shortened: max_ms < own_ms,
    answered: !place.state.open.includes(ask.id) || place.state.done !== '',
  }
}

type OpenTime = { readonly open_ms: number; readonly rehearsal_ms: number }

/** The open time that a computation counts from the same answer, as worked out now; not rounded. */
function openTimeOf(card: Card, source: StepPlace, started: Ask): OpenTime | undefined {
  const all = computations(card, 'open_time')
  const own = all.find(({ ask }) => refersTo(ask, 'started', source, started))
  if (own === undefined) return undefined
  const { inputs } = computeViewOf(card, own.place, own.ask).gathered.question
  const number = (name: string) => {
    const found = inputs[name]
    return found?.kind === 'quantity' ? found.value / 10 ** found.decimals : undefined
  }
  const read = ['air', 'flange', 'adhesive'].flatMap((name) => number(name) ?? [])
  const [sheet_min, sheet_C] = [number('sheet_time'), number('sheet_temperature')]
  if (sheet_min === undefined || sheet_C === undefined) return undefined
  const minutes = openMinutes(sheet_min, sheet_C, read.length > 0 ? Math.max(...read) : sheet_C)
  return { open_ms: minutes * MS_PER_MIN, rehearsal_ms: rehearsalOf(card, all) }
}

type Computation = { readonly place: StepPlace; readonly ask: ComputeAsk }

function computations(card: Card, name: string): readonly Computation[] {
  return card.steps.flatMap((place) =>
    place.step.asks.flatMap((ask) =>
      ask.kind === 'compute' && ask.computation === name ? [{ place, ask }] : [],
    ),
  )
}

function refersTo(ask: ComputeAsk, input: string, place: StepPlace, named: Ask): boolean {
  const found = ask.inputs?.find((one) => one.name === input)
  const refs: readonly AnswerRef[] = found !== undefined && 'from' in found ? found.from : []
  return refs.some(
    (ref) => ref.method === place.method.id && ref.step === place.step.id && ref.ask === named.id,
  )
}

function rehearsalOf(card: Card, all: readonly Computation[]): number {
  for (const { place, ask } of all) {
    const found = computeViewOf(card, place, ask).gathered.question.inputs.rehearsal
    if (found?.kind === 'quantity') return (found.value / 10 ** found.decimals) * MS_PER_MIN
  }
  return 0
}

/** All of the rehearsal lies ahead until a step after the start is done. */
function aheadOf(card: Card, source: StepPlace, rehearsal_ms: number): number {
  const begun = card.steps.some((place) => place.number > source.number && place.state.done === 'done')
  return begun ? 0 : rehearsal_ms
}

/** Rivets set after the last window closed, by the clocks of those who set them. */
function lateOf(card: Card, started: Known, max_ms: number): readonly LateAct[] {
  const dead = new Set([...card.state.aside, ...card.state.struck.map((strike) => strike.target)])
  return [...card.entries.values()]
    .flatMap((known) => {
      const { entry } = known
      if (!isSet(entry) || dead.has(entry.hash)) return []
      const since_ms = apart(started, known)
      const late = { position: entry.body.position, known, minute: Math.floor(since_ms / MS_PER_MIN) }
      return since_ms > max_ms ? [late] : []
    })
    .sort((a, b) => a.minute - b.minute)
}

type TallyEntry = Extract<Entry, { kind: 'tally' }>

function isSet(entry: Entry): entry is TallyEntry {
  return (
    entry.kind === 'tally' && 'state' in entry.body && entry.body.state === 'set' && entry.body.generation > 0
  )
}

function refName({ method, step, ask, point = '' }: AnswerRef): string {
  return `${method}/${step}/${ask}/${point}`
}
