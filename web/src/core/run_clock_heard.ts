/** What the server's word does to the run clock: gaps are confirmed, put right, or left to the offsets at both ends. */
import {
  type ClockState,
  lastIndex,
  PIECES_KEPT,
  type Piece,
  type Reading,
  runsOn,
  STEP_MS,
  slackOf,
  steadyOf,
  whereOf,
} from './run_clock.ts'

/**
 * The server said its time: gaps since it was last heard are confirmed, or the one that can have hidden the
 * difference is put right. `server_ms` belongs to the instant of `now`, give or take `within_ms`.
 */
export function heardServer(state: ClockState, now: Reading, server_ms: number, within_ms = 0): ClockState {
  const word = { offset_ms: server_ms - steadyOf(state, now), within_ms }
  const anchor = lastIndex(state.pieces, (piece) => piece.heard === true)
  const before = state.pieces[anchor]
  if (before?.offset_ms === undefined) return anchored(state, now, word)
  const missing_ms = word.offset_ms - before.offset_ms
  if (Math.abs(missing_ms) <= slackOf(before, word)) return anchored(confirmed(state, anchor), now, word)
  const culprit = culpritOf(state.pieces, anchor, missing_ms)
  if (culprit === undefined) return anchored(state, now, word)
  return anchored(putRight(state, anchor, culprit, missing_ms), now, { ...word, offset_ms: before.offset_ms })
}

type Word = { readonly offset_ms: number; readonly within_ms: number }

/** One offset holds for the pieces that run unbroken to now; another one than was known begins a piece. */
function anchored(state: ClockState, now: Reading, word: Word): ClockState {
  const newest = state.pieces.at(-1)
  if (newest === undefined) return state
  const known = newest.offset_ms
  if (known !== undefined && Math.abs(known - word.offset_ms) > slackOf(newest, word))
    return begun(state, now, newest, word)
  const here = lastIndex(state.pieces, (piece) => !runsOn(piece))
  const closer = word.within_ms < (newest.within_ms ?? 0)
  const lent = state.pieces.map((piece, i) => {
    const takes = piece.offset_ms === undefined || (closer && piece.offset_ms === known)
    return i >= here && takes ? { ...piece, ...word } : piece
  })
  return {
    ...state,
    pieces: lent.map((piece) => (piece === lent.at(-1) ? { ...piece, heard: true } : piece)),
  }
}

/** Time was hidden where no joint tells of it: what came before keeps its offset. */
function begun(state: ClockState, now: Reading, newest: Piece, word: Word): ClockState {
  const blank = { gap_ms: 0, jump_ms: 0, doubt: 'none', joint: 'heard', heard: true } as const
  const piece: Piece = { ...whereOf(now), correction_ms: newest.correction_ms, ...blank, ...word }
  return { ...state, pieces: [...state.pieces, piece].slice(-PIECES_KEPT) }
}

/** Nothing was hidden since the anchor: no doubt is left, and an unseen time that hid nothing is no joint. */
function confirmed(state: ClockState, anchor: number): ClockState {
  const pieces = state.pieces.flatMap((piece, i) => {
    if (i <= anchor) return [piece]
    const same = piece.correction_ms === state.pieces[i - 1]?.correction_ms
    return piece.joint === 'unseen' && same ? [] : [{ ...piece, doubt: 'none' as const }]
  })
  return { ...state, pieces }
}

/** Which joint after the anchor can have hidden `missing_ms`: known set back first, then the latest. */
function culpritOf(pieces: readonly Piece[], anchor: number, missing_ms: number): number | undefined {
  const able = pieces.flatMap((piece, i) => (i > anchor && canHide(piece, missing_ms) ? [i] : []))
  const is = (fits: (piece: Piece) => boolean) => able.filter((i) => pieces.slice(i, i + 1).some(fits))
  return (
    is((piece) => piece.doubt === 'check_clock')[0] ??
    is((piece) => piece.joint !== 'unseen').at(-1) ??
    able.at(-1)
  )
}

/** A gap cannot have been shorter than nothing; a 'changed' clock was a sleep only if the jump fits. */
function canHide(piece: Piece, missing_ms: number): boolean {
  if (piece.joint === 'changed') return Math.abs(piece.jump_ms - missing_ms) <= STEP_MS
  return piece.joint !== 'heard' && piece.gap_ms + missing_ms >= -STEP_MS
}

/** With rivals for it the ends are right, what lies between may not be: those keep their doubt. */
function putRight(state: ClockState, anchor: number, culprit: number, missing_ms: number): ClockState {
  const able = state.pieces.filter((piece, i) => i > anchor && canHide(piece, missing_ms))
  const rivals = able.filter((piece) => piece.joint !== 'unseen').length > 1
  const right = (piece: Piece, i: number): Piece => {
    if (i <= anchor) return piece
    const doubt = rivals ? piece.doubt : 'none'
    if (i < culprit) return { ...piece, doubt }
    const gap_ms = i === culprit ? Math.max(0, piece.gap_ms + missing_ms) : piece.gap_ms
    return { ...piece, doubt, gap_ms, correction_ms: piece.correction_ms + missing_ms }
  }
  return { ...state, pieces: state.pieces.map(right) }
}
