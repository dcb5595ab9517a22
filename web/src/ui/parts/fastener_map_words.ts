// How a position is drawn and said on the map, in the list and beside its keys.
import type { LadderState } from '../../core/entries.ts'
import type { PlaceInCount, PositionState } from '../../core/state.ts'
import type { Beside } from '../../core/views/hole_neighbours.ts'
import type { HoleView } from '../../core/views/holes_view.ts'
import { generationFor, hasDamage, openLost, shownPlace } from '../../core/views/tally_view.ts'
import { holeWords } from '../words/en_holes.ts'
import { ladder, marks } from '../words/en_kinds.ts'
import { mapWords } from '../words/en_map.ts'
import type { MapRivet } from './fastener_map.tsx'
import type { RivetName } from './rivet_mark.tsx'

/** Which rivet the keys speak of: when setting, the next one where the one before is out; 0 is the car's own. */
export function nthOf(at: PositionState, to: LadderState | undefined): number {
  return to === undefined ? at.generation : generationFor(at, to)
}

export function placeWord(place: PlaceInCount): string {
  return ladder[place]
}

/** A lost piece outranks the state; a damaged hole adds to it, and is what the map draws. */
export function shapeOf(at: PositionState, to: LadderState | undefined): RivetName {
  const place = shownPlace(at, to)
  return place !== 'lost' && hasDamage(at) ? 'damaged_hole' : place
}

/** 'P6, set, damaged hole, second rivet'. */
export function positionWords(at: PositionState, to: LadderState | undefined): string {
  const words = [at.position, stateWords(at, to)]
  return words.join(', ')
}

export function stateWords(at: PositionState, to: LadderState | undefined): string {
  const place = shownPlace(at, to)
  const lost = openLost(at).map(({ piece }) => (piece === '' ? ladder.lost : mapWords.lostOf(piece)))
  const words = place === 'lost' ? lost : [placeWord(place)]
  if (place === 'lost' && at.state !== '') words.push(placeWord(at.state))
  if (hasDamage(at)) words.push(marks.damaged_hole)
  if (nthOf(at, to) > 1) words.push(mapWords.nth(nthOf(at, to)))
  return words.join(', ')
}

/** What is beside a damaged hole, or one that goes up a size, says so too. */
export function besideWords(position: string, beside: readonly Beside[]): readonly string[] {
  return beside.flatMap(({ hole, neighbours, larger }) => {
    if (!neighbours.includes(position)) return []
    return [larger ? holeWords.beside(hole) : mapWords.beside(hole)]
  })
}

export function mapRivet(
  at: PositionState,
  to: LadderState | undefined,
  unasked: boolean,
  beside: readonly Beside[] = [],
  holes: readonly HoleView[] = [],
): MapRivet {
  const hole = holes.find(({ position }) => position === at.position)?.word
  const shape = shapeOf(at, to)
  const near = besideWords(at.position, beside)
  return {
    id: at.position,
    shape,
    name: [positionWords(at, to), ...(hole ? [holeWords.is[hole]] : []), ...near].join(', '),
    soft: unasked && shape !== 'lost' && shape !== 'damaged_hole',
    beside: near.length > 0,
    hole,
    nth: nthOf(at, to),
  }
}
