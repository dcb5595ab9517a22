/**
 * What stands beside a damaged hole: the positions whose distance is looked at again if it goes up a size, and how
 * large a rivet the measured edge and pitch leave room for (2 and 3 diameters in metal, as the decision about holes).
 */
import { numberOf } from '../computations/figures.ts'
import { find } from '../computations/question.ts'
import type { ComputeAsk, DrawingMap } from '../method.ts'
import type { PositionState } from '../state.ts'
import type { Card } from './card.ts'
import { gather } from './compute_inputs.ts'
import { hasDamage } from './tally_view.ts'

export type Beside = { readonly hole: string; readonly neighbours: readonly string[] }
/** The largest rivet, mm; undefined where nobody measured or gave the distance. */
export type Room = {
  readonly edge_mm: number | undefined
  readonly pitch_mm: number | undefined
  readonly byEdge_mm: number | undefined
  readonly byPitch_mm: number | undefined
}

const EDGE_DIAMETERS = 2
const PITCH_DIAMETERS = 3
/** A row's next but one is farther than that. */
const NEAR = 1.5

export function besideDamaged(positions: readonly PositionState[], map: DrawingMap): readonly Beside[] {
  return positions.filter(hasDamage).flatMap(({ position }) => {
    const own = map.places.find((place) => place.id === position)
    if (own === undefined) return []
    const others = map.places
      .filter((place) => place.id !== position)
      .map((place) => ({ id: place.id, far: Math.hypot(place.x - own.x, place.y - own.y) }))
      .sort((a, b) => a.far - b.far)
    const nearest = others[0]?.far ?? 0
    return [
      { hole: position, neighbours: others.filter(({ far }) => far <= NEAR * nearest).map(({ id }) => id) },
    ]
  })
}

/** By the method's own decision about the holes of this group; undefined where it makes none. */
export function roomForLarger(card: Card, group: string): Room | undefined {
  for (const place of card.steps) {
    const ask = place.step.asks.find(
      (one): one is ComputeAsk =>
        one.kind === 'compute' && one.computation === 'hole_decision' && (one.groups ?? []).includes(group),
    )
    if (ask === undefined) continue
    const { question } = gather(card, place, ask)
    const mm = (name: string): number | undefined => {
      const found = find(question, name, 'quantity')
      return found && numberOf(found)
    }
    const [edge_mm, pitch_mm] = [mm('edge'), mm('pitch')]
    return {
      edge_mm,
      pitch_mm,
      byEdge_mm: edge_mm === undefined ? undefined : edge_mm / EDGE_DIAMETERS,
      byPitch_mm: pitch_mm === undefined ? undefined : pitch_mm / PITCH_DIAMETERS,
    }
  }
  return undefined
}
