/**
 * Grip of each group from its measured stack-up, and whether the rivet at hand holds all of it. Model "grip-1".
 *
 * A grip on a border of the range, or one that the gaps carry over it, asks: a person chooses, with a reason.
 */
import type { ResultValue } from '../entries.ts'
import { exact, figure, finest, isOver, numberOf, type Scaled, stepsOf, tenTo } from './figures.ts'
import { lotLines } from './lots.ts'
import { find, points, type Question, quantity } from './question.ts'
import { type Answer, line, Refusal } from './shapes.ts'

type Grip = {
  readonly group: string
  readonly mean: ResultValue
  readonly low: ResultValue
  readonly high: ResultValue
}
type Stand = 'held' | 'border' | 'spans' | 'no_fit'
const TOLD: readonly Stand[] = ['no_fit', 'spans', 'border']

export function grip(asked: Question): Answer {
  const grips = (asked.groups ?? []).map((group) => gripOf(asked, group.id))
  if (grips.length === 0) throw new Refusal('groups', 'not_there')
  const [first, last] = [quantity(asked, 'grip_from'), quantity(asked, 'grip_to')]
  const stands = grips.map((one) => standOf(one, first, last))
  const limits = [
    exact('from', first.value, first.unit, first.decimals),
    exact('to', last.value, last.unit, last.decimals),
  ]
  const lines = TOLD.flatMap((stand) => {
    const at = grips.filter((_, place) => stands[place] === stand).map((one) => one.group)
    return at.length === 0 ? [] : [line(`grip_${stand}`, stand === 'no_fit' ? 'stop' : 'ask', at, limits)]
  })
  const outside = stands.some((stand) => stand === 'no_fit' || stand === 'spans')
  return {
    model: 'grip-1',
    values: grips.flatMap((one) => [one.mean, one.low, one.high]),
    verdict: outside ? 'outside' : 'inside',
    lines: [...lines, ...lotLines(asked, 'rivets')],
    sources: ['grip_rows'],
  }
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

function standOf(one: Grip, first: Scaled, last: Scaled): Stand {
  if (isOver(first, one.high) || isOver(one.low, last)) return 'no_fit'
  if (isOver(first, one.low) || isOver(one.high, last)) return 'spans'
  const onBorder = [first, last].some((end) => !isOver(one.mean, end) && !isOver(end, one.mean))
  return onBorder ? 'border' : 'held'
}
