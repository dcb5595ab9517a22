/**
 * The run clock: one steady line of time from a wall clock that people set and a monotonic clock that sleeps. How
 * long a run has been on is told from it by `run_elapsed.ts`.
 *
 * Until the server is heard again (`run_clock_heard.ts`), a figure across a gap rests on the wall clock. Once it was
 * heard in the unbroken stretches of both ends, elapsed time is the server's, right to ROUND_TRIP_MS or to what the
 * way of its words can hide, whatever was done to the clocks between. Where a run began between two gaps without a
 * word of the server, no phone can know which of the two hid the time: the figure is then off by no more than what the
 * other gaps of that span hid, and keeps its doubt.
 */

/** The two clocks at one instant; `load` is the page load that `mono_ms` counts from. */
export type Reading = { readonly at_ms: number; readonly mono_ms: number; readonly load: string }

/** A difference of the clocks above this is no drift: somebody set a clock, or the phone slept. */
export const STEP_MS = 2_000
/** Beats further apart than this by the monotonic clock were not 'seen to run'. */
export const SEEN_TO_RUN_MS = 5_000
/** Two words of the server agree no better than this: each took its time to come. */
const ROUND_TRIP_MS = 1_000
export const PIECES_KEPT = 400

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
  readonly joint: Joint
  /** How long the gap at the joint was on the steady line; 0 at a changed clock. */
  readonly gap_ms: number
  /** Wall minus monotonic at a changed clock. */
  readonly jump_ms: number
  readonly doubt: Doubt
  /** Server time minus steady time: heard in this piece, or in one beside it with no gap between. */
  readonly offset_ms?: number
  /** How far that offset can be off, by the way that the server's word took. */
  readonly within_ms?: number
  /** The server was heard in this piece itself. */
  readonly heard?: true
}

/**
 * `unseen`: the page was hidden and both clocks agree about how long. They would also agree if the phone
 * slept while its clock was set back by as much: only the server can tell. `heard`: the server said so.
 */
export type Joint = 'start' | 'changed' | 'unseen' | 'gap' | 'load' | 'heard'

export type ClockState = { readonly pieces: readonly Piece[]; readonly last: Reading }

/** Body of the `clock` entry that records it. */
export type ClockChange = { readonly what: 'stepped' | 'set_back'; readonly jump_ms: number }

export type Beat = { readonly state: ClockState; readonly change?: ClockChange }

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
  if (Math.abs(jump_ms) <= STEP_MS) return { state: unseen ? unseenTo(state, now) : { ...state, last: now } }
  if (unseen || mono_ms > SEEN_TO_RUN_MS) return acrossGap(state, now, mono_ms, jump_ms)
  return {
    state: joined(state, now, { joint: 'changed', shift_ms: -jump_ms, gap_ms: 0, jump_ms, doubt: 'none' }),
    change: { what: 'stepped', jump_ms },
  }
}

/** Across this joint time went on as far as both clocks can tell: the server's offset holds on its far side, too. */
export function runsOn({ joint }: Pick<Piece, 'joint'>): boolean {
  return joint === 'changed' || joint === 'unseen'
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

/** Beats of one hidden time are one joint: nothing was seen between them. */
function unseenTo(state: ClockState, now: Reading): ClockState {
  const { last, pieces } = state
  const [before, newest] = pieces.slice(-2)
  const goesOn =
    newest?.joint === 'unseen' && newest.mono_from === last.mono_ms && newest.at_from === last.at_ms
  const gone_ms = now.at_ms - last.at_ms
  const gap_ms = Math.max(gone_ms, now.mono_ms - last.mono_ms)
  const joint = { joint: 'unseen', shift_ms: Math.max(0, -gone_ms), jump_ms: 0, doubt: 'none' } as const
  const merges = goesOn && newest.heard === undefined && newest.correction_ms === before?.correction_ms
  if (!merges) return joined(state, now, { ...joint, gap_ms })
  return joined({ ...state, pieces: pieces.slice(0, -1) }, now, { ...joint, gap_ms: newest.gap_ms + gap_ms })
}

type Joining = Pick<Piece, 'joint' | 'gap_ms' | 'jump_ms' | 'doubt'> & { readonly shift_ms: number }

function joined(state: ClockState, now: Reading, { shift_ms, ...joint }: Joining): ClockState {
  const before = pieceAt(state, state.last)
  const lends = before?.offset_ms !== undefined && runsOn(joint)
  const offset = lends ? { offset_ms: before.offset_ms, within_ms: before.within_ms ?? 0 } : {}
  const correction_ms = (before?.correction_ms ?? 0) + shift_ms
  const piece: Piece = { ...whereOf(now), correction_ms, ...joint, ...offset }
  return { pieces: [...state.pieces, piece].slice(-PIECES_KEPT), last: now }
}

/** A reading on the steady line: its wall time, less every change of the clock that was seen. */
export function steadyOf(state: ClockState, reading: Reading): number {
  return reading.at_ms + correctionAt(state, reading)
}

/** What the way of two words of the server can hide. */
export function slackOf(one: Pick<Piece, 'within_ms'>, other: Pick<Piece, 'within_ms'>): number {
  return Math.max(ROUND_TRIP_MS, (one.within_ms ?? 0) + (other.within_ms ?? 0))
}

export function indexAt(pieces: readonly Piece[], reading: Reading): number {
  return lastIndex(pieces, (piece) => piece.load === reading.load && isFrom(piece, reading))
}

function isFrom(piece: Piece, reading: Reading): boolean {
  if (piece.mono_from !== reading.mono_ms) return piece.mono_from < reading.mono_ms
  return Math.abs(reading.at_ms - piece.at_from) <= STEP_MS
}

export function whereOf(now: Reading): Pick<Piece, 'load' | 'mono_from' | 'at_from'> {
  return { load: now.load, mono_from: now.mono_ms, at_from: now.at_ms }
}

export function pieceAt(state: ClockState, reading: Reading): Piece | undefined {
  return state.pieces[indexAt(state.pieces, reading)]
}

function correctionAt(state: ClockState, reading: Reading): number {
  return (pieceAt(state, reading) ?? state.pieces[0])?.correction_ms ?? 0
}

function firstPiece(now: Reading): Piece {
  const blank = { correction_ms: 0, gap_ms: 0, jump_ms: 0, doubt: 'none', joint: 'start' } as const
  return { ...whereOf(now), ...blank }
}

export function lastIndex(pieces: readonly Piece[], fits: (piece: Piece, index: number) => boolean): number {
  return pieces.reduce((found, piece, index) => (fits(piece, index) ? index : found), -1)
}
