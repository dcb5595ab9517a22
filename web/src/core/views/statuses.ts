/** Where every step stands, and which one is the next act. */
import type { RunState } from '../state.ts'
import type { Card, StepPlace } from './card.ts'

export type StepStatus = 'done' | 'not_applicable' | 'running' | 'held' | 'waits' | 'open'

export type StepStanding = {
  readonly place: StepPlace
  readonly status: StepStatus
  /** The hold point that this step waits for: an earlier one, or itself. */
  readonly heldBy: StepPlace | undefined
  /** It was recorded done though its hold has not passed. */
  readonly beforeHold: boolean
  /** Put off with a reason, and not taken up again: the next act passes it by. */
  readonly later: boolean
}

/** A begun run that nobody has seen cold. */
export function isHot(run: RunState): boolean {
  return !run.moments.includes('cold')
}

export function runsOf(card: Card, place: StepPlace, ask?: string): readonly RunState[] {
  return card.state.runs.filter(
    (run) =>
      run.method === place.method.id && run.step === place.step.id && (ask === undefined || run.ask === ask),
  )
}

/**
 * The earlier hold point of its method that is still held and does not let this step go on meanwhile. What
 * a step of another method has to wait for stands in its needs.
 */
function holdBefore(card: Card, place: StepPlace): StepPlace | undefined {
  return card.steps.find(
    (other) =>
      other.number < place.number &&
      other.state.hold === 'held' &&
      other.method.id === place.method.id &&
      !other.step.meanwhile.includes(place.step.id),
  )
}

/** A card never changes: where its steps stand is worked out once, however many screens ask. */
const STANDINGS = new WeakMap<Card, ReadonlyMap<StepPlace, StepStanding>>()

export function standingOf(card: Card, place: StepPlace): StepStanding {
  return standingsOf(card).get(place) ?? standingAt(card, place)
}

/** Where every step of a card stands, in their order. */
function standingsOf(card: Card): ReadonlyMap<StepPlace, StepStanding> {
  const known = STANDINGS.get(card)
  if (known !== undefined) return known
  const standings = new Map(card.steps.map((place) => [place, standingAt(card, place)]))
  STANDINGS.set(card, standings)
  return standings
}

function standingAt(card: Card, place: StepPlace): StepStanding {
  const before = holdBefore(card, place)
  const own = place.state.hold === 'held' ? place : undefined
  const heldBy = before ?? own
  const { done } = place.state
  return {
    place,
    status: statusOf(card, place, before),
    heldBy,
    beforeHold: done !== '' && own !== undefined,
    later: done === '' && place.state.later.length > 0,
  }
}

function statusOf(card: Card, place: StepPlace, before: StepPlace | undefined): StepStatus {
  if (place.state.done !== '') return place.state.done
  if (runsOf(card, place).some(isHot)) return 'running'
  if (place.state.needs_open.length > 0) return 'waits'
  return before !== undefined ? 'held' : 'open'
}

/** A hold point itself counts as free: making its checks is the act. */
export function isFree(standing: StepStanding): boolean {
  return standing.status === 'open' || standing.status === 'running'
}

/** Done, or free to be done: what its photos show can be there. */
export function isReached(card: Card, place: StepPlace): boolean {
  return place.state.done !== '' || isFree(standingOf(card, place))
}

function waitsOnRunOf(standing: StepStanding, run: StepPlace): boolean {
  return standing.place.step.needs.some((need) => need.startsWith(`${run.step.id}@`))
}

/** Those that were put off come only when nothing else is free. */
function freeInOrder(card: Card): readonly StepStanding[] {
  const free = [...standingsOf(card).values()].filter(isFree)
  return [...free.filter((one) => !one.later), ...free.filter((one) => one.later)]
}

/**
 * The one next act. A running heat run is it, until a step that waited for one of the run's moments
 * is free: that one is done with the pads still on.
 */
export function nextAct(card: Card): StepStanding | undefined {
  const free = freeInOrder(card)
  const first = free[0]
  if (first?.status !== 'running') return first
  return free.find((other) => other.status === 'open' && waitsOnRunOf(other, first.place)) ?? first
}

/** The next step that can go on while `held` is held. */
export function nextFree(card: Card, held: StepPlace): StepStanding | undefined {
  return freeInOrder(card).find((other) => other.place !== held)
}

export type Progress = { readonly done: number; readonly all: number }

export function progressOf(card: Card): Progress {
  return { done: card.steps.filter((place) => place.state.done !== '').length, all: card.steps.length }
}
