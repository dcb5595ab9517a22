/**
 * Grip of each group from its measured stack-up, and the rivet length whose row holds all of it. Model "grip-1".
 *
 * A grip on a border of rows, one that several rows hold, or one that the gaps carry over two rows, asks: a person
 * chooses, with a reason.
 */
import type { ResultValue } from '../entries.ts'
import { exact, figure, finest, numberOf, stepsOf, tenTo } from './figures.ts'
import type { RivetTable } from './inputs.ts'
import { lotLines } from './lots.ts'
import { find, points, type Question, quantity } from './question.ts'
import {
  around,
  type Grip,
  hasLengths,
  named,
  type Stand,
  type Standing,
  standingOf,
  tableOf,
} from './rivet_lengths.ts'
import { type Answer, type Line, line, Refusal } from './shapes.ts'

const ASKING: readonly Stand[] = ['no_fit', 'spans', 'border', 'several']

export function grip(asked: Question): Answer {
  const standings = standingsOf(asked)
  if (standings.length === 0) throw new Refusal('groups', 'not_there')
  const table = tableOf(asked)
  const offered = hasLengths(table) ? [exact('lengths_offered', table.rows.length, 'pcs')] : []
  const outside = standings.some(({ stand }) => stand === 'no_fit' || stand === 'spans')
  return {
    model: 'grip-1',
    values: [...standings.flatMap((one) => figuresOf(one, table)), ...offered],
    verdict: outside ? 'outside' : 'inside',
    lines: [...linesOf(standings, table), ...lotLines(asked, 'rivets')],
    sources: ['grip_rows'],
  }
}

/** Every group of the question before the rows, in the method's order. */
export function standingsOf(asked: Question): readonly Standing[] {
  const grips = (asked.groups ?? []).map((group) => gripOf(asked, group.id))
  return grips.length === 0 ? [] : grips.map((one) => standingOf(one, tableOf(asked)))
}

function figuresOf({ grip: one, stand, rows }: Standing, table: RivetTable): readonly ResultValue[] {
  const [row] = rows
  const isHeld = stand === 'held' && row !== undefined && hasLengths(table)
  return [one.mean, one.low, one.high, ...(isHeld ? [named(`length_${one.group}`, row.length, table)] : [])]
}

/** Laminate of the group, flange, and the bondline or the group's own bed. */
function gripOf(asked: Question, group: string): Grip {
  const laminate = points(asked, 'laminate').get(group)
  if (laminate === undefined) throw new Refusal('laminate', 'no_group_point')
  const flange = quantity(asked, 'flange')
  const bed = find(asked, `${group}_bed`, 'quantity')
  const between = bed === undefined ? [...points(asked, 'bondline').values()] : [bed]
  const decimals = finest([laminate, flange, ...between])
  const sheets = stepsOf(laminate, decimals) + stepsOf(flange, decimals)
  const steps = between.map((one) => stepsOf(one, decimals))
  const mean = (sheets + steps.reduce((sum, one) => sum + one, 0) / steps.length) / tenTo(decimals)
  const at = (one: number) => numberOf({ value: sheets + one, decimals })
  return {
    group,
    mean: figure(`grip_${group}`, mean, 'mm', 2),
    low: figure(`grip_low_${group}`, at(Math.min(...steps)), 'mm', 2),
    high: figure(`grip_high_${group}`, at(Math.max(...steps)), 'mm', 2),
  }
}

/** What asks or stops: a line for those groups that stand alike before the same rows. */
function linesOf(standings: readonly Standing[], table: RivetTable): readonly Line[] {
  const about = hasLengths(table) ? 'length' : 'grip'
  return ASKING.flatMap((stand) => {
    const alike = new Map<string, { readonly at: string[]; readonly values: readonly ResultValue[] }>()
    for (const one of standings.filter((other) => other.stand === stand)) {
      const values = saidOf(one, table)
      const key = JSON.stringify(values)
      const kept = alike.get(key) ?? { at: [], values }
      alike.set(key, kept)
      kept.at.push(one.grip.group)
    }
    return [...alike.values()].map(({ at, values }) =>
      line(`${about}_${stand}`, stand === 'no_fit' ? 'stop' : 'ask', at, values),
    )
  })
}

/** No fit: the ends of the table. Else the rows to choose from; of a range without a length its ends. */
function saidOf({ grip: one, stand, rows }: Standing, table: RivetTable): readonly ResultValue[] {
  if (stand === 'no_fit' || !hasLengths(table)) return around(one, table)
  return rows.flatMap((row, place) => [
    named(`length_${place + 1}`, row.length, table),
    named(`from_${place + 1}`, row.low, table),
    named(`to_${place + 1}`, row.high, table),
  ])
}
