/** Pieces that are lost inside and not found: they stay in view wherever the job is shown. */
import type { Piece } from '../entries.ts'
import { type Card, type Known, knownOf } from './card.ts'
import { openLost } from './tally_view.ts'

export type LostPiece = {
  readonly position: string
  readonly piece: Piece | ''
  /** Of the mark lost: what a mark found names. */
  readonly hash: string
  /** Which rivet of the position lost it: 0 is the one found on the car. */
  readonly generation: number
  /** Who marked it, and when. */
  readonly known: Known | undefined
}

/** In the order of the positions, then of the marks. */
export function lostPieces(card: Pick<Card, 'state' | 'entries'>): readonly LostPiece[] {
  return card.state.positions.flatMap((at) =>
    openLost(at).map(({ hash, piece }) => {
      const known = knownOf(card, hash)
      const generation = known?.entry.kind === 'tally' ? known.entry.body.generation : at.generation
      return { position: at.position, piece, hash, generation, known }
    }),
  )
}
