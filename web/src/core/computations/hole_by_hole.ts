/** What every hole allows, each by itself: how many are used, opened, go up a size, or wait for the maker. */
import type { ResultValue } from '../entries.ts'
import { difference, exact, figure, isOver } from './figures.ts'
import { type AskedHole, askedHole, type Decision, decide, nextSizeNeeds, WHYS } from './hole_asked.ts'
import { type MeasuredHole, measuredHole, positionsOf } from './hole_measured.ts'
import { roomLines } from './hole_room_lines.ts'
import type { Question } from './question.ts'
import { type Answer, type Line, line, Refusal } from './shapes.ts'

/** A hole as it was read, with its room, and what it allows. */
export type FoundHole = {
  readonly position: string
  readonly measured: MeasuredHole
  readonly asked: AskedHole
  readonly decision: Decision
}
const COUNTS = [
  ['holes_used', 'reuse'],
  ['holes_opened', 'open_to_nominal'],
  ['holes_larger', 'next_size'],
  ['holes_to_maker', 'ask_maker'],
] as const

/** In the order in which they were read; a Refusal for a slip, and where one diameter is missing. */
export function foundHoles(asked: Question): readonly FoundHole[] {
  return positionsOf(asked).map((position) => foundHole(asked, position))
}

export function foundHole(asked: Question, position: string): FoundHole {
  const measured = measuredHole(asked, position)
  const hole = askedHole(asked, measured, position)
  return { position, measured, asked: hole, decision: decide(hole) }
}

export function holeByHole(asked: Question): Answer {
  const holes = foundHoles(asked)
  const damaged = asked.damaged ?? []
  const [first] = holes
  if (first === undefined) throw new Refusal('largest', 'not_there')
  const isInside = damaged.length === 0 && holes.every(({ decision }) => decision.code === 'reuse')
  return {
    model: 'hole-1',
    values: [...sizesOf(holes, first), exact('damaged', damaged.length, 'pcs'), ...countsOf(holes)],
    verdict: isInside ? 'inside' : 'outside',
    lines: [
      ...said(holes),
      ...nextSizeNeeds(first.asked),
      ...holes.flatMap((one) => roomLines(one.position, one.asked, one.decision)),
      ...(damaged.length > 0 ? [line('damaged_holes', 'stop', damaged)] : []),
    ],
    sources: ['hole', 'edge_metal', ...(first.asked.room.layers.length > 1 ? ['edge_laminate'] : [])],
  }
}

function sizesOf(holes: readonly FoundHole[], first: FoundHole): readonly ResultValue[] {
  const largest = holes.map(({ measured: { largest: one } }) =>
    exact('largest', one.value, 'mm', one.decimals),
  )
  const smallest = holes.map(({ measured }) =>
    difference('smallest', measured.largest, measured.ovality, 'mm'),
  )
  const [low, high] = first.asked.range
  return [
    largest.reduce((worst, one) => (isOver(one, worst) ? one : worst)),
    smallest.reduce((least, one) => (isOver(least, one) ? one : least)),
    figure('hole_from', low, 'mm', 2),
    figure('hole_to', high, 'mm', 2),
  ]
}

/** By decision; with none left to the maker the rivet that the larger ones take. */
function countsOf(holes: readonly FoundHole[]): readonly ResultValue[] {
  const count = (code: Decision['code']): number =>
    holes.filter(({ decision }) => decision.code === code).length
  const rivet = holes.find(({ decision }) => decision.code === 'next_size')?.decision.rivet
  return [
    ...COUNTS.map(([name, code]) => exact(name, count(code), 'pcs')),
    ...(rivet === undefined || count('ask_maker') > 0 ? [] : [figure('rivet', rivet, 'mm', 1)]),
  ]
}

/** One line a reason, with its positions; nothing is said of those that are used as they are. */
function said(holes: readonly FoundHole[]): readonly Line[] {
  return WHYS.flatMap((why) => {
    const at = holes.filter(({ decision }) => decision.why === why).map(({ position }) => position)
    return at.length === 0 ? [] : [line(`holes_${why}`, 'stop', at)]
  })
}
