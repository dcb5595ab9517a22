/** Rivets position by position: what comes next at each, and how many are still to account for. */

import type { LadderState, Piece } from '../entries.ts'
import { LADDER, type TallyAsk } from '../method.ts'
import type { PlaceInCount, PositionState } from '../state.ts'

/** The part of the ladder that puts a rivet in; the rest takes it out. */
const SETTING: readonly LadderState[] = ['hole_checked', 'rivet_seated', 'set', 'set_and_checked']
const TAKING_OUT: readonly LadderState[] = [
  'in_place',
  'mandrel_out',
  'head_drilled',
  'head_off',
  'shank_out',
]

export const PIECES: readonly Piece[] = ['head', 'mandrel', 'shank']

export function statesTowards(to: LadderState): readonly LadderState[] {
  const states = SETTING.includes(to) ? SETTING : TAKING_OUT
  return states.slice(0, states.indexOf(to) + 1)
}

function rank(state: LadderState | ''): number {
  return state === '' ? -1 : LADDER.indexOf(state)
}

function takesOut(to: LadderState): boolean {
  return TAKING_OUT.includes(to)
}

/** Generation 0 is the rivet found on the car: what is set is the next one, once the last one is out. */
export function generationFor(at: PositionState, to: LadderState): number {
  if (takesOut(to)) return at.generation
  const gone = rank(at.state) > rank('in_place')
  return at.generation === 0 || gone ? at.generation + 1 : at.generation
}

export function isReached(at: PositionState, to: LadderState): boolean {
  return generationFor(at, to) === at.generation && rank(at.state) >= rank(to)
}

/** The state that the main key offers; undefined where the position is there. */
export function nextState(at: PositionState, to: LadderState): LadderState | undefined {
  if (isReached(at, to)) return undefined
  const states = statesTowards(to)
  if (generationFor(at, to) !== at.generation) return states[0]
  const ahead = states.filter((state) => rank(state) > rank(at.state))
  /* A rivet found in place needs no entry to say so, unless that is what the step asks for. */
  return ahead[0] === 'in_place' && to !== 'in_place' ? ahead[1] : ahead[0]
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

export type TallyView = {
  readonly positions: readonly PositionState[]
  readonly left: number
  readonly counts: readonly { readonly place: PlaceInCount; readonly n: number }[]
  readonly damaged: number
}

export function tallyOf(positions: readonly PositionState[], ask: Pick<TallyAsk, 'to'>): TallyView {
  const order: readonly PlaceInCount[] = [...LADDER].reverse()
  const counts = [...order, 'untouched' as const, 'lost' as const].map((place) => ({
    place,
    n: positions.filter((one) => one.place === place).length,
  }))
  return {
    positions,
    left: positions.filter((one) => !isReached(one, ask.to) || openLost(one).length > 0).length,
    counts: counts.filter((one) => one.n > 0),
    damaged: positions.filter(hasDamage).length,
  }
}

/** The next position after this one that is not there yet; wraps round; itself if none is left. */
export function nextPosition(positions: readonly PositionState[], from: string, to: LadderState): string {
  const at = positions.findIndex((one) => one.position === from)
  const after = [...positions.slice(at + 1), ...positions.slice(0, at + 1)]
  return after.find((one) => !isReached(one, to))?.position ?? from
}
