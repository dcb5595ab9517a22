/** Reconciles the pieces of rivets that were taken out: each kind by itself, so that none hides another. */
import type { LadderState, Piece, ResultValue } from './entries.ts'

export const TALLY_MODEL = 'tally-1'

/** One generation of one position: its furthest state, and its pieces that are lost and not found. */
export type Rivet = {
  readonly position: string
  readonly generation: number
  readonly state: LadderState | ''
  readonly lost: readonly Piece[]
}
/** Of one kind of piece: owed by rivets wholly out, taken (in the tray), lost, and taken - owed. */
export type PieceCount = {
  readonly owed: number
  readonly taken: number
  readonly lost: number
  readonly difference: number
}
export type Reconciliation = {
  readonly pieces: { readonly [P in Piece]: PieceCount }
  readonly verdict: 'inside' | 'outside'
}

const PIECES: readonly Piece[] = ['head', 'mandrel', 'shank']
/** The states at which each piece has left the joint. */
const RELEASED: { readonly [P in Piece]: readonly string[] } = {
  head: ['head_off', 'shank_out'],
  mandrel: ['mandrel_out', 'head_drilled', 'head_off', 'shank_out'],
  shank: ['shank_out'],
}

/** Inside only if no kind has a difference or a loss: a surplus of one kind never cancels a loss of another. */
export function tallyReconciliation(rivets: readonly Rivet[]): Reconciliation {
  const pieces = {
    head: counted(rivets, 'head'),
    mandrel: counted(rivets, 'mandrel'),
    shank: counted(rivets, 'shank'),
  }
  const isEven = PIECES.every((piece) => pieces[piece].difference === 0 && pieces[piece].lost === 0)
  return { pieces, verdict: isEven ? 'inside' : 'outside' }
}

function counted(rivets: readonly Rivet[], piece: Piece): PieceCount {
  const owed = rivets.filter((rivet) => rivet.state === 'shank_out').length
  const taken = rivets.filter(
    (rivet) => RELEASED[piece].includes(rivet.state) && !rivet.lost.includes(piece),
  ).length
  const lost = rivets.flatMap((rivet) => rivet.lost).filter((each) => each === piece).length
  return { owed, taken, lost, difference: taken - owed }
}

/** The figures as a `result` entry carries them, in order head, mandrel, shank. */
export function tallyValues({ pieces }: Reconciliation): ResultValue[] {
  return PIECES.flatMap((piece) =>
    (['owed', 'taken', 'lost', 'difference'] as const).map((figure) => ({
      name: `${figure}_${piece}`,
      value: pieces[piece][figure],
      unit: 'pieces',
      decimals: 0,
    })),
  )
}
