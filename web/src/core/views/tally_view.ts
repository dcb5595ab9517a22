/** Rivets position by position: what comes next at each, and how many are still to account for. */

import type { LadderState, Piece } from '../entries.ts'
import { LADDER, ladderTo, type TallyAsk } from '../method.ts'
import type { PlaceInCount, PositionState } from '../state.ts'
import { isReached, type Rivets, rank, takesOut } from './reached.ts'

export const PIECES: readonly Piece[] = ['head', 'mandrel', 'shank']

export function statesTowards(to: LadderState): readonly LadderState[] {
  const states = LADDER.filter((state) => ladderTo(state) === ladderTo(to))
  return states.slice(0, states.indexOf(to) + 1)
}

/** Begun to be taken out, and its shank still in: it owes its pieces before another takes its hole. */
export function isOnItsWayOut(at: PositionState): boolean {
  return rank(at.state) > rank('in_place') && at.state !== 'shank_out'
}

/** The rivet that an act is about: when setting the next one, unless one stands in the hole already. */
export function generationFor(at: PositionState, to: LadderState): number {
  if (takesOut(to) || isOnItsWayOut(at)) return at.generation
  return at.generation === 0 || at.state === 'shank_out' ? at.generation + 1 : at.generation
}

/** The states that can be stated of a position now, nearest first: of the rivet that `generationFor` names. */
export function statesAhead(at: PositionState, to: LadderState): readonly LadderState[] {
  const states = statesTowards(isOnItsWayOut(at) && !takesOut(to) ? 'shank_out' : to)
  if (generationFor(at, to) !== at.generation) return states
  const ahead = states.filter((state) => rank(state) > rank(at.state))
  /* A rivet found in place needs no entry to say so, unless that is what the step asks for. */
  return ahead.filter((state) => state !== 'in_place' || to === 'in_place')
}

/** The state that the main key offers; undefined where the position is there. */
export function nextState(at: PositionState, to: LadderState, rivets?: Rivets): LadderState | undefined {
  return isReached(at, to, rivets) ? undefined : statesAhead(at, to)[0]
}

/** A rivet that was seated or set and did not turn out well can be drilled out and replaced. */
export function canReplace(at: PositionState): boolean {
  return at.generation >= 1 && ['rivet_seated', 'set', 'set_and_checked', 'in_place'].includes(at.state)
}

export type OpenLost = { readonly hash: string; readonly piece: Piece | '' }

export function openLost(at: PositionState): readonly OpenLost[] {
  return at.marks
    .filter((mark) => mark.mark === 'lost' && mark.open)
    .map(({ hash, piece }) => ({ hash, piece }))
}

export function hasDamage(at: PositionState): boolean {
  return at.marks.some((mark) => mark.mark === 'damaged_hole')
}

/**
 * The place that the map shows. When taking out, a rivet that nobody touched is in place. When setting, a hole
 * whose old rivet is out has not been started. An open lost outranks both.
 */
export function shownPlace(at: PositionState, to: LadderState | undefined): PlaceInCount {
  if (at.place === 'lost' || to === undefined) return at.place
  if (takesOut(to)) return at.place === 'untouched' ? 'in_place' : at.place
  return generationFor(at, to) === at.generation ? at.place : 'untouched'
}

export type TallyView = {
  readonly positions: readonly PositionState[]
  readonly left: number
  readonly counts: readonly { readonly place: PlaceInCount; readonly n: number }[]
  readonly damaged: number
}

const PLACES: readonly PlaceInCount[] = [...[...LADDER].reverse(), 'untouched', 'lost']

/** Every position stands in one place, so that the counts add up to the positions. */
export function countsShown(
  positions: readonly PositionState[],
  toOf: (at: PositionState) => LadderState | undefined,
): TallyView['counts'] {
  const places = positions.map((at) => shownPlace(at, toOf(at)))
  return PLACES.map((place) => ({ place, n: places.filter((one) => one === place).length })).filter(
    (one) => one.n > 0,
  )
}

export function isToAccountFor(at: PositionState, to: LadderState, rivets?: Rivets): boolean {
  return !isReached(at, to, rivets) || openLost(at).length > 0
}

export function tallyOf(
  positions: readonly PositionState[],
  ask: Pick<TallyAsk, 'to'>,
  rivets?: Rivets,
): TallyView {
  return {
    positions,
    left: positions.filter((one) => isToAccountFor(one, ask.to, rivets)).length,
    counts: countsShown(positions, () => ask.to),
    damaged: positions.filter(hasDamage).length,
  }
}

/**
 * Where the hand goes after an act: the next position that wants the same act (the tool is in the hand), else
 * the next one that is not there yet. It wraps round; itself if none is left.
 */
export function nextPosition(
  positions: readonly PositionState[],
  from: string,
  to: LadderState,
  { same, rivets }: { same?: LadderState; rivets?: Rivets } = {},
): string {
  const at = positions.findIndex((one) => one.position === from)
  const after = [...positions.slice(at + 1), ...positions.slice(0, at + 1)]
  const open = after.filter((one) => !isReached(one, to, rivets))
  const first = open.find((one) => nextState(one, to, rivets) === same) ?? open[0]
  return first?.position ?? from
}
