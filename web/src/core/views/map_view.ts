/** The fastener map of a step or of the whole job: its drawing, what is asked of each position, who was there last. */
import type { LadderState, Piece } from '../entries.ts'
import { spotsOf } from '../fold/tally.ts'
import type { DrawingMap, GroupDoc, MethodDoc, TallyAsk } from '../method.ts'
import type { PositionState } from '../state.ts'
import { type Card, isStruck, type Known, knownOf, methodsOf, type StepPlace } from './card.ts'
import type { Rivets } from './reached.ts'
import { PIECES } from './tally_view.ts'

/** A drawing by its hash, and where its positions are in it. */
export type MapDrawing = { readonly sha256: string; readonly map: DrawingMap }

export type MapBoard = {
  readonly positions: readonly PositionState[]
  readonly rivets: Rivets
  readonly groups: readonly GroupDoc[]
  /** Undefined where no method has a drawing with these positions: then they stand in rows. */
  readonly drawing: MapDrawing | undefined
  /** What this step asks of a position; undefined where it asks nothing. */
  readonly toOf: (at: PositionState) => LadderState | undefined
  /** How it is drawn and said: as the step's other positions where the step asks nothing of it. */
  readonly shownTo: (at: PositionState) => LadderState | undefined
}

/** Of the step that asks; of the whole job where no step is named. */
export function boardOf(card: Card, place?: StepPlace): MapBoard {
  const asks = (place?.step.asks ?? []).filter((ask): ask is TallyAsk => ask.kind === 'tally')
  const methods = methodsOf(card)
  const toOf = (at: PositionState) => asks.find((ask) => ask.group === at.group)?.to
  const own = place ? [place.method, ...methods] : methods
  return {
    positions: card.state.positions,
    rivets: rivetsOf(card),
    groups: own.flatMap((method) => method.groups),
    drawing: own.map(drawingOf).find((one) => one !== undefined),
    toOf,
    shownTo: (at) => toOf(at) ?? asks[0]?.to,
  }
}

export function drawingOf(method: Pick<MethodDoc, 'maps' | 'drawings'>): MapDrawing | undefined {
  const map = method.maps?.find((one) => one.places.length > 0)
  const sha256 = map && method.drawings[map.drawing]
  return map && sha256 !== undefined ? { sha256, map } : undefined
}

export function groupName(board: Pick<MapBoard, 'groups'>, id: string): string {
  return board.groups.find((group) => group.id === id)?.name ?? id
}

function tallyEntries(card: Card) {
  const dead = new Set([...card.state.aside, ...card.state.struck.map((strike) => strike.target)])
  return [...card.entries.values()].flatMap(({ entry }) =>
    entry.kind === 'tally' && !dead.has(entry.hash) ? [entry] : [],
  )
}

export function rivetsOf(card: Card): Rivets {
  const spots = spotsOf(tallyEntries(card))
  return new Map(
    [...spots].map(([position, { rivets }]) => [
      position,
      rivets.map(({ generation, deciding }) => ({
        generation,
        state: deciding?.body.state ?? '',
        hash: deciding?.hash ?? '',
      })),
    ]),
  )
}

/** A mark that stands at a position, with the entry that made it. */
export type StandingMark = {
  readonly hash: string
  readonly mark: PositionState['marks'][number]['mark']
  readonly piece: Piece | ''
  readonly open: boolean
  readonly known: Known | undefined
}

export type PositionFacts = {
  /** The entry that decides the state; a strike of it goes back by one. */
  readonly deciding: Known | undefined
  /** What was recorded here last, a state or a mark. */
  readonly last: Known | undefined
  readonly marks: readonly StandingMark[]
  readonly photos: readonly Known[]
  /** Results of computations and readings that speak of this position, the newest first. */
  readonly measured: readonly Known[]
}

export function positionFacts(card: Card, at: PositionState): PositionFacts {
  const here = [...card.entries.values()].filter(
    ({ entry }) =>
      entry.kind === 'tally' && entry.body.position === at.position && !isStruck(card, entry.hash),
  )
  return {
    deciding: knownOf(card, at.deciding),
    last: here.sort((one, other) => other.order - one.order)[0],
    marks: at.marks.map((mark) => ({ ...mark, known: knownOf(card, mark.hash) })),
    photos: photosAt(card, at.position),
    measured: measuredAt(card, at.position),
  }
}

/** Photos that name the position, in a slot or without one. */
function photosAt(card: Card, position: string): readonly Known[] {
  const standing = [...card.state.slots.flatMap((slot) => slot.photos), ...card.state.loose_photos]
  return [...new Set(standing)].flatMap((hash) => {
    const known = knownOf(card, hash)
    return known?.entry.kind === 'photo' && known.entry.body.position === position ? [known] : []
  })
}

/**
 * The hook of the computations: a shown result or reading speaks of a position where its point bears the
 * position's id (a hole measured at H4), so a `hole_decision` by point is shown here as soon as it is recorded.
 */
function measuredAt(card: Card, position: string): readonly Known[] {
  return card.state.registers.flatMap(({ kind, point, shown }) => {
    if ((kind !== 'result' && kind !== 'reading') || point.toLowerCase() !== position.toLowerCase()) return []
    return knownOf(card, shown) ?? []
  })
}

/** The pieces of this position that can still be marked lost: one that is lost already is not lost twice. */
export function piecesToLose(at: PositionState): readonly Piece[] {
  const lost = at.marks.filter((mark) => mark.mark === 'lost' && mark.open).map((mark) => mark.piece)
  return PIECES.filter((piece) => !lost.includes(piece))
}

/** The rivet that an entry is about: a mark made while rivet 1 stood stays with rivet 1. */
export function generationOf(known: Known | undefined): number {
  return known?.entry.kind === 'tally' ? known.entry.body.generation : 0
}
