/** Whether a rivet is where a tally ask wants it: small and apart, because the step's own page asks it. */
import type { LadderState } from '../entries.ts'
import { LADDER, ladderTo } from '../method.ts'
import type { PositionState } from '../state.ts'

/** One rivet of a position: 0 is the one found on the car, 1 the first one set. */
export type RivetAt = { readonly generation: number; readonly state: LadderState | ''; readonly hash: string }
/** Every rivet of each position; a position that is not named had none recorded. */
export type Rivets = ReadonlyMap<string, readonly RivetAt[]>

export function takesOut(to: LadderState): boolean {
  return ladderTo(to) === 'taking_out'
}

export function rank(state: LadderState | ''): number {
  return state === '' ? -1 : LADDER.indexOf(state)
}

/**
 * As the fold judges it, but for lost pieces: any rivet of a position answers what takes out, only its newest
 * one answers what sets. Without `rivets` a position where one was set counts as one whose old rivet is out.
 */
export function isReached(at: PositionState, to: LadderState, rivets?: Rivets): boolean {
  if (takesOut(to)) {
    const earlier = rivets ? (rivets.get(at.position) ?? []) : at.generation > 0 ? [WHOLLY_OUT] : []
    return [at, ...earlier].some(({ state }) => rank(state) >= rank(to))
  }
  return at.generation >= 1 && rank(at.state) >= rank(to) && rank(at.state) <= rank('in_place')
}

const WHOLLY_OUT = { state: 'shank_out' } as const
