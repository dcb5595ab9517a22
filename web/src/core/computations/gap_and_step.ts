/** Gaps and steps of the fit against their limits, how even they are, what moved since the dry fit. "dry-fit-1". */
import type { ResultValue } from '../entries.ts'
import { difference, exact, finest, isOver, type Scaled, stepsOf } from './figures.ts'
import type { Quantity } from './inputs.ts'
import { findPoints, type Measured, points, type Question, quantity } from './question.ts'
import { type Answer, type Line, line, Refusal, verdictOf } from './shapes.ts'

type Sizes = ReadonlyMap<string, Scaled>

export function gapAndStep(asked: Question): Answer {
  const [gaps, steps] = [points(asked, 'gap'), points(asked, 'step')]
  if (!haveSamePoints(gaps, steps)) throw new Refusal('step', 'other_points')
  const nominal = quantity(asked, 'gap_nominal')
  const off = mapped(gaps, (gap) => size(difference('', gap, nominal, 'mm')))
  const proud = mapped(steps, size)
  const lines = [
    ...over(off, quantity(asked, 'gap_allowed'), 'gap_over'),
    ...over(proud, quantity(asked, 'step_allowed'), 'step_over'),
  ]
  const widest = extreme('widest_gap', gaps, Math.max)
  const narrowest = extreme('narrowest_gap', gaps, Math.min)
  return {
    model: 'dry-fit-1',
    values: [
      widest,
      narrowest,
      difference('gap_spread', widest, narrowest, 'mm'),
      extreme('largest_step', proud, Math.max),
      ...moved(asked, 'gap', gaps),
      ...moved(asked, 'step', steps),
    ],
    verdict: verdictOf(lines),
    lines,
    sources: ['method_limits'],
  }
}

export function haveSamePoints(
  first: ReadonlyMap<string, unknown>,
  second: ReadonlyMap<string, unknown>,
): boolean {
  return first.size === second.size && [...first.keys()].every((point) => second.has(point))
}

function mapped(found: Sizes, by: (one: Scaled) => Scaled): Sizes {
  return new Map([...found].map(([point, one]) => [point, by(one)]))
}

function size({ value, decimals }: Scaled): Scaled {
  return { value: Math.abs(value), decimals }
}

function over(found: Sizes, allowed: Quantity, code: string): readonly Line[] {
  const at = [...found].filter(([, one]) => isOver(one, allowed)).map(([point]) => point)
  const limit = exact('allowed', allowed.value, allowed.unit, allowed.decimals)
  return at.length === 0 ? [] : [line(code, 'stop', at, [limit])]
}

function extreme(name: string, found: Sizes, pick: (...steps: number[]) => number): ResultValue {
  const all = [...found.values()]
  const decimals = finest(all)
  return exact(name, pick(...all.map((one) => stepsOf(one, decimals))), 'mm', decimals)
}

function moved(asked: Question, name: string, now: Measured): readonly ResultValue[] {
  const before = findPoints(asked, `dry_${name}`)
  const both = [...now].flatMap(([point, one]): [string, Scaled][] => {
    const dry = before?.get(point)
    return dry === undefined ? [] : [[point, size(difference('', one, dry, 'mm'))]]
  })
  return both.length === 0 ? [] : [extreme(`${name}_moved`, new Map(both), Math.max)]
}
