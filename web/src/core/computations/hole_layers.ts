/**
 * Layers of the joint at a rivet: how near each one's edge is there, and what it asks of edge and pitch.
 *
 * The method gives a figure a group or a position, as the maker's drawing does; an edge that was read at the hole
 * stands above it, and is the flange's. What a layer asks for is the maker's, else its material's: aluminium by FAA AC
 * 43.13-1B, paragraph 4-57; laminate from memory.
 */
import { numberOf } from './figures.ts'
import type { Measured } from './hole_measured.ts'
import type { Question } from './question.ts'

export type Layer = {
  readonly name: string
  /** Undefined where nobody gave or read it. */
  readonly edge: Measured | undefined
  readonly isRead: boolean
  readonly edgeDiameters: number
  readonly pitchDiameters: number
}

export const FLANGE = 'flange'
const EDGES = 'rivet.edge_mm.'
const LEAST = 'rivet.least_diameters.'
const IN_METAL = { edge: 2, pitch: 3 }
const IN_LAMINATE = { edge: 3, pitch: 4 }

/** By their names; where the method names none, the flange alone. */
export function layersAt(asked: Question, position: string, read: Measured | undefined): readonly Layer[] {
  const names = Object.keys(asked.facts ?? {}).flatMap((fact) =>
    fact.startsWith(EDGES) ? (fact.split('.')[2] ?? []) : [],
  )
  const named = names.length === 0 ? [FLANGE] : [...new Set(names)].sort()
  return named.map((name) => layerOf(asked, name, position, read))
}

function layerOf(asked: Question, name: string, position: string, read: Measured | undefined): Layer {
  const rule = name === FLANGE ? IN_METAL : IN_LAMINATE
  const least = (of: 'edge' | 'pitch'): number => {
    const given = asked.facts?.[`${LEAST}${name}.${of}`]
    return given === undefined ? rule[of] : numberOf(given)
  }
  const isRead = name === FLANGE && read !== undefined
  return {
    name,
    edge: isRead ? read : drawnOf(asked, name, position),
    isRead,
    edgeDiameters: least('edge'),
    pitchDiameters: least('pitch'),
  }
}

/** The position's own figure, else its group's. */
function drawnOf({ facts, groups }: Question, layer: string, position: string): Measured | undefined {
  for (const group of groups ?? []) {
    const own = group.positions.find((one) => one.toLowerCase() === position.toLowerCase())
    if (own === undefined) continue
    const given = facts?.[`${EDGES}${layer}.${own}`] ?? facts?.[`${EDGES}${layer}.${group.id}`]
    if (given !== undefined) return { ...given, unit: 'mm' }
  }
  return undefined
}
