/** The method's own times and limits of a heat run, where no plan was worked out for it: no forecast. */
import { exact } from './figures.ts'
import type { Question } from './question.ts'
import { type Answer, line, Refusal } from './shapes.ts'

const LIMITS = [
  'setpoint',
  'lagging_min',
  'leading_max',
  'metal_max',
  'neighbour_max',
  'ramp_max',
  'cooling_max',
  'lift_below',
  'cold_below',
]
const TIMES = [
  ['ramp', 'ramp_s'],
  ['soak', 'soak_s'],
] as const
const S_PER_MIN = 60

export function heatPlan({ settings = {} }: Question): Answer {
  if (settings.soak_s === undefined) throw new Refusal('settings', 'no_run')
  const minutes = TIMES.map(([name, setting]) =>
    exact(name, Math.ceil((settings[setting]?.value ?? 0) / S_PER_MIN), 'min'),
  )
  const limits = LIMITS.flatMap((name) => {
    const found = settings[name]
    return found === undefined ? [] : [exact(name, found.value, found.unit, found.decimals)]
  })
  return {
    model: 'method-times-1',
    values: [...minutes, ...limits],
    verdict: 'none',
    lines: [line('no_forecast')],
    sources: ['method_limits'],
  }
}
