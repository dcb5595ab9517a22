/** Rivets to lay ready: one for each position, spares, and the next size where holes want it. Model "pick-1". */
import type { ResultValue } from '../entries.ts'
import { exact, left, numberOf, tenTo } from './figures.ts'
import type { Earlier } from './inputs.ts'
import { find, type Question, quantity, want } from './question.ts'
import { type Answer, type Line, line, Refusal, verdictOf } from './shapes.ts'

export function pickList(asked: Question): Answer {
  const groups = asked.groups ?? []
  const found = quantity(asked, 'positions')
  const counted = groups.reduce((sum, group) => sum + group.positions.length, 0)
  if (counted === 0) throw new Refusal('groups', 'not_there')
  const least = numberOrNone(asked, 'least_spares')
  const spares = Math.max(left((counted * numberOrNone(asked, 'spares')) / 100), least)
  const lines: Line[] = []
  if (found.value !== counted * tenTo(found.decimals)) {
    const both = [exact('found', found.value, 'pcs', found.decimals), exact('counted', counted, 'pcs')]
    lines.push(line('positions_differ', 'stop', [], both))
  }
  if (want(asked, 'grip', 'earlier').verdict !== 'inside') lines.push(line('grip_not_held', 'stop'))
  const larger = largerOf(find(asked, 'holes', 'earlier'), least)
  lines.push(...larger.lines)
  return {
    model: 'pick-1',
    values: [
      ...groups.map((group) => exact(`rivets_${group.id}`, group.positions.length, 'pcs')),
      exact('counted', counted, 'pcs'),
      exact('spares', spares, 'pcs'),
      exact('to_pick', counted + spares, 'pcs'),
      ...larger.values,
    ],
    verdict: verdictOf(lines),
    lines,
    sources: ['spares'],
  }
}

type Larger = { readonly values: readonly ResultValue[]; readonly lines: readonly Line[] }
const NONE: Larger = { values: [], lines: [] }

/** A share or count that the method may leave out: then it wants none. */
function numberOrNone(asked: Question, name: string): number {
  const found = find(asked, name, 'quantity')
  return found === undefined ? 0 : numberOf(found)
}

function largerOf(holes: Earlier | undefined, spares: number): Larger {
  if (holes === undefined || holes.verdict === 'inside') return NONE
  if (isOnlyOpened(holes)) return NONE
  const rivet = figureOf(holes, 'rivet')
  if (rivet === undefined || (figureOf(holes, 'damaged')?.value ?? 0) > 0) {
    return { values: [], lines: [line('holes_ask_maker', 'stop')] }
  }
  if (isSmall(holes)) return NONE
  return {
    values: [exact('larger', (figureOf(holes, 'holes_larger')?.value ?? 1) + spares, 'pcs')],
    lines: [line('next_size', 'note', [], [rivet])],
  }
}

/** Decided hole by hole, and none of them wants another rivet. */
function isOnlyOpened(holes: Earlier): boolean {
  return ['holes_larger', 'holes_to_maker', 'damaged'].every((name) => figureOf(holes, name)?.value === 0)
}

/** A hole under its own range is opened to it; the rivet stays the same. */
function isSmall(holes: Earlier): boolean {
  const [smallest, low, largest, high] = ['smallest', 'hole_from', 'largest', 'hole_to'].map((name) => {
    const found = figureOf(holes, name)
    return found === undefined ? Number.NaN : numberOf(found)
  }) as [number, number, number, number]
  return figureOf(holes, 'drill_to') !== undefined && smallest < low && largest <= high
}

export function figureOf({ values }: Earlier, name: string): ResultValue | undefined {
  return values.find((value) => value.name === name)
}
