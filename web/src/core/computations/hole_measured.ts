/**
 * A hole as it was measured: two diameters at right angles, or the largest with the difference of the two.
 *
 * Each figure is read at the positions, or is one for all of them.
 */
import { difference, isOver } from './figures.ts'
import type { Quantity } from './inputs.ts'
import { find, findPoints, points, type Question } from './question.ts'
import { Refusal } from './shapes.ts'

export type Measured = Omit<Quantity, 'kind'>
/** Largest diameter, difference of the two, and the room round it where it was measured. */
export type MeasuredHole = {
  readonly largest: Measured
  readonly ovality: Measured
  readonly edge: Measured | undefined
  readonly pitch: Measured | undefined
}

/** Where the holes were read, in that order; none where one figure stands for all of them. */
export function positionsOf(asked: Question): readonly string[] {
  const first = firstOf(asked)
  return findPoints(asked, first) === undefined ? [] : [...points(asked, first).keys()]
}

/** The hole at a position; a Refusal where one of its figures was not read. */
export function measuredHole(asked: Question, position = ''): MeasuredHole {
  const first = firstOf(asked)
  const second = first === 'along' ? 'across' : 'ovality'
  const [one, other] = [figureAt(asked, first, position), figureAt(asked, second, position)]
  if (one === undefined || other === undefined) {
    throw new Refusal(one ? second : first, position === '' ? 'not_there' : 'other_points')
  }
  return {
    ...(first === 'along' ? ofTwo(one, other) : { largest: one, ovality: other }),
    edge: figureAt(asked, 'edge', position),
    pitch: figureAt(asked, 'pitch', position),
  }
}

function firstOf({ inputs }: Question): 'along' | 'largest' {
  return 'along' in inputs ? 'along' : 'largest'
}

/** The larger of the two, and how far apart they are. */
function ofTwo(along: Measured, across: Measured): Pick<MeasuredHole, 'largest' | 'ovality'> {
  const [larger, smaller] = isOver(across, along) ? [across, along] : [along, across]
  return { largest: larger, ovality: difference('ovality', larger, smaller, larger.unit) }
}

export function figureAt(asked: Question, name: string, position: string): Measured | undefined {
  const read = findPoints(asked, name)
  return read === undefined ? find(asked, name, 'quantity') : read.get(position)
}
