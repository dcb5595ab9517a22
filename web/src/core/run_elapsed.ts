/** How long a run has been on, by the run clock's steady line, and how far that figure can be trusted. */
import {
  type ClockState,
  type Doubt,
  indexAt,
  lastIndex,
  type Piece,
  pieceAt,
  type Reading,
  slackOf,
  steadyOf,
} from './run_clock.ts'

/** Where a run began: its `on` entry and, for another device's, what the server says beside it. */
export type RunStart = Reading & {
  readonly own: boolean
  readonly received_ms?: number
  /** Server time minus the author's wall clock at that entry. */
  readonly offset_ms?: number
}

export type Elapsed = { readonly elapsed_ms: number; readonly doubt: Doubt }

/** Server time of a reading of this device, and whether the server was heard since the last gap. */
export function serverTimeOf(
  state: ClockState,
  now: Reading,
): { server_ms: number; doubt: Doubt } | undefined {
  const anchor = lastIndex(state.pieces, (piece) => piece.offset_ms !== undefined)
  const offset_ms = state.pieces[anchor]?.offset_ms
  if (offset_ms === undefined) return undefined
  return { server_ms: steadyOf(state, now) + offset_ms, doubt: worstAfter(state.pieces, anchor) }
}

/** How long a run has been on, and how far that figure can be trusted. */
export function elapsedOf(state: ClockState, now: Reading, start: RunStart): Elapsed {
  return start.own ? ownElapsed(state, now, start) : othersElapsed(state, now, start)
}

function ownElapsed(state: ClockState, now: Reading, start: RunStart): Elapsed {
  const steady_ms = steadyOf(state, now) - steadyOf(state, start)
  const from = indexAt(state.pieces, start)
  if (from === -1) return { elapsed_ms: Math.max(0, steady_ms), doubt: 'check_clock' }
  const hidden_ms = hiddenBetween(state.pieces[from], pieceAt(state, now))
  if (hidden_ms !== undefined) return { elapsed_ms: Math.max(0, steady_ms + hidden_ms), doubt: 'none' }
  return { elapsed_ms: Math.max(0, steady_ms), doubt: worstAfter(state.pieces, from) }
}

/**
 * Where the server was heard at both ends: what the gaps between hid from the steady line. Less than the way of
 * its words can hide is no time.
 */
function hiddenBetween(from: Piece | undefined, to: Piece | undefined): number | undefined {
  if (from?.offset_ms === undefined || to?.offset_ms === undefined) return undefined
  const hidden_ms = to.offset_ms - from.offset_ms
  return Math.abs(hidden_ms) > slackOf(from, to) ? hidden_ms : 0
}

function othersElapsed(state: ClockState, now: Reading, start: RunStart): Elapsed {
  const server = serverTimeOf(state, now)
  if (server === undefined || start.offset_ms === undefined) {
    return { elapsed_ms: Math.max(0, steadyOf(state, now) - start.at_ms), doubt: 'check_clock' }
  }
  return { elapsed_ms: Math.max(0, server.server_ms - start.at_ms - start.offset_ms), doubt: server.doubt }
}

const RANK: Record<Doubt, number> = { none: 0, wall_only: 1, check_clock: 2 }

function worstAfter(pieces: readonly Piece[], from: number): Doubt {
  return pieces
    .slice(from + 1)
    .reduce<Doubt>((worst, piece) => (RANK[piece.doubt] > RANK[worst] ? piece.doubt : worst), 'none')
}
