/**
 * The room round a hole: each layer's edge by its own rule, and the neighbours, for a rivet of some size.
 *
 * The worst layer counts: for the edge the one with the least to spare, for the pitch the one that asks for most.
 * Neighbours are those nearest by the method's own places of the rivets; between two of different size the larger sets
 * the minimum.
 */
import { numberOf, reached, rounded } from './figures.ts'
import { type Layer, layersAt } from './hole_layers.ts'
import type { Measured, MeasuredHole } from './hole_measured.ts'
import type { Question } from './question.ts'

/** To the nearest neighbour; undefined where nobody gave or read it. */
export type Pitch = {
  readonly found: Measured | undefined
  readonly isRead: boolean
  readonly neighbours: readonly string[]
}
export type HoleRoom = {
  readonly layers: readonly Layer[]
  readonly pitch: Pitch
  readonly pitchDiameters: number
}

/** A row's next but one is farther than that. */
const NEAR = 1.5

export function roomAt(
  asked: Question,
  position: string,
  { edge, pitch }: Pick<MeasuredHole, 'edge' | 'pitch'>,
): HoleRoom {
  const layers = layersAt(asked, position, edge)
  return {
    layers,
    pitch: pitchOf(asked, position, pitch),
    pitchDiameters: Math.max(...layers.map((layer) => layer.pitchDiameters)),
  }
}

/** The layer with the least to spare; one whose edge nobody knows is worse than all. */
export function worstOf({ layers }: HoleRoom, rivet_mm: number): Layer {
  return layers.reduce((worst, layer) =>
    toSpare(layer, rivet_mm) < toSpare(worst, rivet_mm) ? layer : worst,
  )
}

/** `''` where nothing is short, or nothing is known. */
export function lackOf(room: HoleRoom, rivet_mm: number): '' | 'edge_short' | 'pitch_short' {
  const known = room.layers.filter(({ edge }) => edge !== undefined)
  if (known.some((layer) => toSpare(layer, rivet_mm) < 0)) return 'edge_short'
  const { found } = room.pitch
  if (found === undefined) return ''
  return rounded(numberOf(found), 2) < rounded(room.pitchDiameters * rivet_mm, 2) ? 'pitch_short' : ''
}

/** Hundredths over the minimum. */
function toSpare({ edge, edgeDiameters }: Layer, rivet_mm: number): number {
  if (edge === undefined) return Number.NEGATIVE_INFINITY
  return rounded(numberOf(edge), 2) - rounded(edgeDiameters * rivet_mm, 2)
}

function pitchOf({ places }: Question, position: string, read: Measured | undefined): Pitch {
  const own = places?.find(({ id }) => id === position)
  const far = (places ?? [])
    .filter(({ id }) => id !== position)
    .map(({ id, at_mm }) => ({ id, away: own === undefined ? 0 : apart(own.at_mm, at_mm) }))
    .sort((a, b) => a.away - b.away || (a.id < b.id ? -1 : 1))
  const [nearest] = far
  if (own === undefined || nearest === undefined)
    return { found: read, isRead: read !== undefined, neighbours: [] }
  return { found: read ?? tenths(nearest.away), isRead: read !== undefined, neighbours: nextOf(far) }
}

/** Which of some, the nearest first, stand next to it: to hundredths of whatever they are measured in. */
export function nextOf(far: readonly { readonly id: string; readonly away: number }[]): readonly string[] {
  const near = rounded(NEAR * (far[0]?.away ?? 0), 2)
  return far.filter(({ away }) => rounded(away, 2) <= near).map(({ id }) => id)
}

type At = readonly [x: number, y: number, z: number]

function apart(one: At, other: At): number {
  return Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2])
}

/** Rounded down: a tenth more would not be there. */
function tenths(mm: number): Measured {
  return { value: reached(mm * 10), unit: 'mm', decimals: 1 }
}
