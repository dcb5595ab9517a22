/**
 * What the steps up to a window are still planned to take, by the minutes that the method gives them.
 *
 * A step of which nothing is recorded takes all of them; of rivets the share that is still to do; any other what is left
 * since its first record. A step that the method gives no minutes counts none.
 */
import { MS_PER_MIN } from '../computations/figures.ts'
import { positionsOf } from './answers.ts'
import { apart } from './apart.ts'
import { type Card, type Known, knownOf, type StepPlace } from './card.ts'
import { rivetsOf } from './map_view.ts'
import { tallyOf } from './tally_view.ts'

/** `begun_ms`: after the clock's start; undefined while nothing is recorded of it. */
export type PlannedStep = { readonly ms: number; readonly begun_ms: number | undefined }

/** The steps that are not done between a clock's source and the step where its window closes, both included. */
export function plannedSteps(
  card: Card,
  source: StepPlace,
  until: StepPlace,
  started: Known,
): readonly PlannedStep[] {
  return card.steps
    .filter((place) => place.number >= source.number && place.number <= until.number)
    .filter((place) => place.state.done === '' && place.step.minutes !== undefined)
    .map((place) => plannedStep(card, place, started))
}

/** At so many milliseconds after the clock's start. */
export function leftOf(steps: readonly PlannedStep[], elapsed_ms: number): number {
  return steps.reduce((all, { ms, begun_ms }) => {
    const gone_ms = begun_ms === undefined ? 0 : Math.max(0, elapsed_ms - begun_ms)
    return all + Math.max(0, ms - gone_ms)
  }, 0)
}

function plannedStep(card: Card, place: StepPlace, started: Known): PlannedStep {
  const ms = (place.step.minutes ?? 0) * MS_PER_MIN
  const share = shareLeft(card, place)
  if (share !== undefined) return { ms: ms * share, begun_ms: undefined }
  const first = firstRecord(card, place)
  return { ms, begun_ms: first && apart(started, first) }
}

/** Of a step that is counted rivet by rivet. */
function shareLeft(card: Card, place: StepPlace): number | undefined {
  const counts = place.step.asks.flatMap((ask) =>
    ask.kind === 'tally' ? [tallyOf(positionsOf(card, [ask.group]), ask, rivetsOf(card))] : [],
  )
  const all = counts.reduce((sum, { positions }) => sum + positions.length, 0)
  return all === 0 ? undefined : counts.reduce((sum, { left }) => sum + left, 0) / all
}

function firstRecord(card: Card, place: StepPlace): Known | undefined {
  const here = card.state.registers.filter(
    (one) => one.method === place.method.id && one.step === place.step.id,
  )
  const known = here.flatMap(({ shown }) => knownOf(card, shown) ?? [])
  const [first] = known
  return first && known.reduce((early, one) => (apart(early, one) < 0 ? one : early), first)
}
