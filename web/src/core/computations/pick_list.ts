/**
 * Rivets to lay ready: one for each position, spares, trial rivets, and the next size where holes want it. Model "pick-1".
 *
 * Lengths are those that the grip's result gave, or that a person chose there: no figure is typed a second time. Spares
 * are rounded up line by line, as the office does.
 */
import type { ResultValue } from '../entries.ts'
import { exact, left, numberOf, tenTo } from './figures.ts'
import type { Earlier } from './inputs.ts'
import { find, type Group, type Question, quantity, want } from './question.ts'
import { type Answer, type Line, line, Refusal, verdictOf } from './shapes.ts'

/** So many of one length; undefined where the grip's table names none, or nobody chose one. */
type Laid = {
  readonly length: ResultValue | undefined
  readonly count: number
  readonly spares: number
  readonly trial: number
}

export function pickList(asked: Question): Answer {
  const groups = asked.groups ?? []
  const [found, grip] = [quantity(asked, 'positions'), want(asked, 'grip', 'earlier')]
  const counted = groups.reduce((sum, group) => sum + group.positions.length, 0)
  if (counted === 0) throw new Refusal('groups', 'not_there')
  const laid = laidOf(asked, grip)
  const lines: Line[] = []
  if (found.value !== counted * tenTo(found.decimals)) {
    const both = [exact('found', found.value, 'pcs', found.decimals), exact('counted', counted, 'pcs')]
    lines.push(line('positions_differ', 'stop', [], both))
  }
  lines.push(...gripLines(groups, grip))
  const larger = largerOf(find(asked, 'holes', 'earlier'), numberOrNone(asked, 'least_spares'))
  lines.push(...larger.lines)
  return {
    model: 'pick-1',
    values: [
      ...groups.map((group) => exact(`rivets_${group.id}`, group.positions.length, 'pcs')),
      ...laid.flatMap(ofLength),
      ...sumsOf(laid),
      ...larger.values,
    ],
    verdict: verdictOf(lines),
    lines,
    sources: ['spares'],
  }
}

/** A line a length, in the order of the groups; those without a length together. */
function laidOf(asked: Question, grip: Earlier): readonly Laid[] {
  const [share, least, trial] = ['spares', 'least_spares', 'trial'].map((name) =>
    numberOrNone(asked, name),
  ) as [number, number, number]
  const lines = new Map<number | undefined, Laid>()
  for (const group of asked.groups ?? []) {
    const length = lengthOf(grip, group)
    const key = length && numberOf(length)
    const count = (lines.get(key)?.count ?? 0) + group.positions.length
    const spares = count === 0 ? 0 : Math.max(left((count * share) / 100), least)
    lines.set(key, { length, count, spares, trial: count === 0 ? 0 : trial })
  }
  return [...lines.values()]
}

/** What a person chose for a group, else what its row says. */
function lengthOf(grip: Earlier, { id }: Group): ResultValue | undefined {
  return figureOf(grip, `chosen_${id}`) ?? figureOf(grip, `length_${id}`)
}

/** The counts of one length, named by it: `lay_12mm`, `lay_12_5mm`. */
function ofLength({ length, count, spares, trial }: Laid): readonly ResultValue[] {
  if (length === undefined) return []
  const name = `${numberOf(length)}mm`.replace('.', '_')
  return [
    exact(`need_${name}`, count, 'pcs'),
    exact(`spare_${name}`, spares, 'pcs'),
    exact(`lay_${name}`, count + spares + trial, 'pcs'),
  ]
}

function sumsOf(laid: readonly Laid[]): readonly ResultValue[] {
  const sum = (of: (one: Laid) => number) => laid.reduce((all, one) => all + of(one), 0)
  const [count, spares, trial] = [sum((one) => one.count), sum((one) => one.spares), sum((one) => one.trial)]
  return [
    exact('counted', count, 'pcs'),
    exact('spares', spares, 'pcs'),
    ...(trial === 0 ? [] : [exact('trial', trial, 'pcs')]),
    exact('to_pick', count + spares + trial, 'pcs'),
  ]
}

/** By rows each group wants a length; of one range the verdict says whether the rivet holds. */
function gripLines(groups: readonly Group[], grip: Earlier): readonly Line[] {
  if (figureOf(grip, 'lengths_offered') === undefined) {
    return grip.verdict === 'inside' ? [] : [line('grip_not_held', 'stop')]
  }
  const ids = (all: readonly Group[]) => all.map((group) => group.id)
  const openAt = ids(groups.filter((group) => lengthOf(grip, group) === undefined))
  const chosenAt = ids(groups.filter((group) => figureOf(grip, `chosen_${group.id}`) !== undefined))
  return [
    ...(openAt.length === 0 ? [] : [line('length_open', 'stop', openAt)]),
    ...(chosenAt.length === 0 ? [] : [line('length_chosen', 'note', chosenAt)]),
  ]
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
