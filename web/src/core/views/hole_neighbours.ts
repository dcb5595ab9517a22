/**
 * What stands beside a hole that is damaged or goes up a size: the positions whose distance is looked at again.
 *
 * Of a damaged hole by the drawing; of a larger one by the method's own places, where it gives them.
 */
import { nextOf } from '../computations/hole_room.ts'
import type { DrawingMap } from '../method.ts'
import type { PositionState } from '../state.ts'
import type { HoleView } from './holes_view.ts'
import { hasDamage } from './tally_view.ts'

/** `larger`: it goes up a size; else it is damaged. */
export type Beside = {
  readonly hole: string
  readonly neighbours: readonly string[]
  readonly larger?: boolean
}

export function besideHoles(
  positions: readonly PositionState[],
  map: DrawingMap,
  holes: readonly HoleView[],
): readonly Beside[] {
  return [
    ...positions.filter(hasDamage).flatMap(({ position }) => besideOf(position, map)),
    ...holes
      .filter(({ word }) => word === 'larger')
      .flatMap(({ position, neighbours }) =>
        (neighbours.length > 0 ? [{ hole: position, neighbours }] : besideOf(position, map)).map((one) => ({
          ...one,
          larger: true,
        })),
      ),
  ]
}

function besideOf(position: string, map: DrawingMap): readonly Beside[] {
  const own = map.places.find((place) => place.id === position)
  if (own === undefined) return []
  const others = map.places
    .filter((place) => place.id !== position)
    .map((place) => ({ id: place.id, away: Math.hypot(place.x - own.x, place.y - own.y) }))
    .sort((a, b) => a.away - b.away)
  return [{ hole: position, neighbours: nextOf(others) }]
}
