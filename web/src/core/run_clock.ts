/** The run clock: elapsed time from a wall clock that people set and a monotonic clock that sleeps. */

/** The two clocks at one instant; `load` is the page load that `mono_ms` counts from. */
export type Reading = { readonly at_ms: number; readonly mono_ms: number; readonly load: string }

/** A difference of the clocks above this is no drift: somebody set a clock, or the phone slept. */
export const STEP_MS = 2_000
/** Beats further apart than this by the monotonic clock were not 'seen to run'. */
export const SEEN_TO_RUN_MS = 5_000
/** Two words of the server agree no better than this: each took its time to come. */
const ROUND_TRIP_MS = 1_000
const PIECES_KEPT = 400

/** `wall_only`: part of it was measured by the wall clock alone. `check_clock`: the clock was set back unseen. */
export type Doubt = 'none' | 'wall_only' | 'check_clock'

/**
 * A piece of the steady time line: `steady = at_ms + correction_ms` for readings of `load` from
 * `mono_from` on. Its joint says why it does not simply continue the piece before it.
 */
export type Piece = {
  readonly load: string
  readonly mono_from: number
  /** The wall clock at the joint: tells apart readings of one monotonic instant, before and after a sleep. */
  readonly at_from: number
  readonly correction_ms: number
  readonly joint: 'start' | 'changed' | 'gap' | 'load'
  /** How long the gap at the joint was on the steady line; 0 at a changed clock. */
  readonly gap_ms: number
  /** Wall minus monotonic at a changed clock. */
  readonly jump_ms: number
  readonly doubt: Doubt
  /** Server time minus steady time, where this piece heard the server. */
  readonly offset_ms?: number
}

export type ClockState = { readonly pieces: readonly Piece[]; readonly last: Reading }

/** Body of the `clock` entry that records it. */
export type ClockChange = { readonly what: 'stepped' | 'set_back'; readonly jump_ms: number }

export type Beat = { readonly state: ClockState; readonly change?: ClockChange }

/** Where a run began: its `on` entry and, for another device's, what the server says beside it. */
export type RunStart = Reading & {
  readonly own: boolean
  readonly received_ms?: number
  /** Server time minus the author's wall clock at that entry. */
  readonly offset_ms?: number
}

export type Elapsed = { readonly elapsed_ms: number; readonly doubt: Doubt }

/** The first reading of a page load, joined to what earlier loads left on disk. */
export function startClock(saved: ClockState | undefined, now: Reading): Beat {
  const before = saved?.pieces.at(-1)
  if (saved === undefined || before === undefined) return { state: { pieces: [firstPiece(now)], last: now } }
  const kept = correctionAt(saved, saved.last)
  const gone_ms = now.at_ms - saved.last.at_ms
  const back_ms = Math.max(0, -gone_ms)
  const piece: Piece = {
    ...firstPiece(now),
    joint: 'load',
    correction_ms: kept + back_ms,
    gap_ms: Math.max(0, gone_ms),
    doubt: back_ms > STEP_MS ? 'check_clock' : 'wall_only',
  }
  const state = { pieces: [...saved.pieces, piece].slice(-PIECES_KEPT), last: now }
  return back_ms > STEP_MS ? { state, change: { what: 'set_back', jump_ms: gone_ms } } : { state }
}

/** One heartbeat. `unseen`: the page is hidden, or was since the last beat. */
export function beat(state: ClockState, now: Reading, unseen: boolean): Beat {
  const { last } = state
  const mono_ms = now.mono_ms - last.mono_ms
  const jump_ms = now.at_ms - last.at_ms - mono_ms
  if (Math.abs(jump_ms) <= STEP_MS) return { state: { ...state, last: now } }
  if (unseen || mono_ms > SEEN_TO_RUN_MS) return acrossGap(state, now, mono_ms, jump_ms)
  return {
    state: joined(state, now, { joint: 'changed', shift_ms: -jump_ms, gap_ms: 0, jump_ms, doubt: 'none' }),
    change: { what: 'stepped', jump_ms },
  }
}

function acrossGap(state: ClockState, now: Reading, mono_ms: number, jump_ms: number): Beat {
  if (jump_ms > 0) {
    const gap_ms = mono_ms + jump_ms
    return { state: joined(state, now, { joint: 'gap', shift_ms: 0, gap_ms, jump_ms, doubt: 'wall_only' }) }
  }
  const set_back = {
    joint: 'gap',
    shift_ms: -jump_ms,
    gap_ms: mono_ms,
    jump_ms,
    doubt: 'check_clock',
  } as const
  return { state: joined(state, now, set_back), change: { what: 'set_back', jump_ms } }
}

type Joint = Pick<Piece, 'joint' | 'gap_ms' | 'jump_ms' | 'doubt'> & { readonly shift_ms: number }

function joined(state: ClockState, now: Reading, { shift_ms, ...joint }: Joint): ClockState {
  const before = pieceAt(state, state.last)
  const offset =
    before?.offset_ms !== undefined && joint.joint === 'changed' ? { offset_ms: before.offset_ms } : {}
  const correction_ms = (before?.correction_ms ?? 0) + shift_ms
  const piece: Piece = { ...whereOf(now), correction_ms, ...joint, ...offset }
  return { pieces: [...state.pieces, piece].slice(-PIECES_KEPT), last: now }
}

/**
 * The server said its time: gaps since it was last heard are confirmed, or the one that can have
 * hidden the difference is put right. `server_ms` belongs to the instant of `now`.
 */
export function heardServer(state: ClockState, now: Reading, server_ms: number): ClockState {
  const offset_ms = server_ms - steadyOf(state, now)
  const here = stretchStart(state.pieces)
  const anchor = lastAnchored(state.pieces, here)
  const known = state.pieces[anchor]?.offset_ms
  if (known === undefined) return anchored(state, here, offset_ms)
  const missing_ms = offset_ms - known
  if (Math.abs(missing_ms) <= STEP_MS) return anchored(confirmed(state, anchor), here, offset_ms)
  const culprit = culpritOf(state.pieces, anchor, missing_ms)
  if (culprit === undefined) return anchored(state, here, offset_ms)
  return anchored(putRight(state, anchor, culprit, missing_ms), here, known)
}

/** The pieces from here on run unbroken to now: one server offset holds for all of them. */
function stretchStart(pieces: readonly Piece[]): number {
  return Math.max(
    0,
    lastIndex(pieces, (piece) => piece.joint !== 'changed'),
  )
}

/** The newest piece that heard the server: in this stretch before it is re-anchored, or in an earlier one. */
function lastAnchored(pieces: readonly Piece[], here: number): number {
  const earlier = lastIndex(pieces, (piece, index) => index < here && piece.offset_ms !== undefined)
  const inStretch = pieces.findIndex((piece, index) => index >= here && piece.offset_ms !== undefined)
  return inStretch === -1 ? earlier : inStretch
}

function anchored(state: ClockState, here: number, offset_ms: number): ClockState {
  return { ...state, pieces: state.pieces.map((piece, i) => (i < here ? piece : { ...piece, offset_ms })) }
}

function confirmed(state: ClockState, anchor: number): ClockState {
  return {
    ...state,
    pieces: state.pieces.map((piece, i) => (i <= anchor ? piece : { ...piece, doubt: 'none' })),
  }
}

/** Which joint after the anchor can have hidden `missing_ms`: known set back first, then the latest. */
function culpritOf(pieces: readonly Piece[], anchor: number, missing_ms: number): number | undefined {
  const able = pieces.flatMap((piece, i) => (i > anchor && canHide(piece, missing_ms) ? [i] : []))
  return able.find((i) => pieces[i]?.doubt === 'check_clock') ?? able.at(-1)
}

/** A gap cannot have been shorter than nothing; a 'changed' clock was a sleep only if the jump fits. */
function canHide(piece: Piece, missing_ms: number): boolean {
  if (piece.joint === 'changed') return Math.abs(piece.jump_ms - missing_ms) <= STEP_MS
  return piece.gap_ms + missing_ms >= -STEP_MS
}

function putRight(state: ClockState, anchor: number, culprit: number, missing_ms: number): ClockState {
  const rivals = state.pieces.filter((piece, i) => i > anchor && canHide(piece, missing_ms)).length > 1
  const right = (piece: Piece, i: number): Piece => {
    if (i <= anchor) return piece
    const doubt = rivals && i !== culprit ? piece.doubt : 'none'
    if (i < culprit) return { ...piece, doubt }
    const gap_ms = i === culprit ? Math.max(0, piece.gap_ms + missing_ms) : piece.gap_ms
    return { ...piece, doubt, gap_ms, correction_ms: piece.correction_ms + missing_ms }
  }
  return { ...state, pieces: state.pieces.map(right) }
}

/** A reading on the steady line: its wall time, less every change of the clock that was seen. */
export function steadyOf(state: ClockState, reading: Reading): number {
  return reading.at_ms + correctionAt(state, reading)
}

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

/** Where the server was heard at both ends: what the gaps between hid from the steady line, if not only drift. */
function hiddenBetween(from: Piece | undefined, to: Piece | undefined): number | undefined {
  if (from?.offset_ms === undefined || to?.offset_ms === undefined) return undefined
  const hidden_ms = to.offset_ms - from.offset_ms
  return Math.abs(hidden_ms) > ROUND_TRIP_MS ? hidden_ms : 0
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

function indexAt(pieces: readonly Piece[], reading: Reading): number {
  return lastIndex(pieces, (piece) => piece.load === reading.load && isFrom(piece, reading))
}

function isFrom(piece: Piece, reading: Reading): boolean {
  if (piece.mono_from !== reading.mono_ms) return piece.mono_from < reading.mono_ms
  return Math.abs(reading.at_ms - piece.at_from) <= STEP_MS
}

function whereOf(now: Reading): Pick<Piece, 'load' | 'mono_from' | 'at_from'> {
  return { load: now.load, mono_from: now.mono_ms, at_from: now.at_ms }
}

function pieceAt(state: ClockState, reading: Reading): Piece | undefined {
  return state.pieces[indexAt(state.pieces, reading)]
}

function correctionAt(state: ClockState, reading: Reading): number {
  return (pieceAt(state, reading) ?? state.pieces[0])?.correction_ms ?? 0
}

function firstPiece(now: Reading): Piece {
  const blank = { correction_ms: 0, gap_ms: 0, jump_ms: 0, doubt: 'none', joint: 'start' } as const
  return { ...whereOf(now), ...blank }
}

function lastIndex(pieces: readonly Piece[], fits: (piece: Piece, index: number) => boolean): number {
  return pieces.reduce((found, piece, index) => (fits(piece, index) ? index : found), -1)
}
