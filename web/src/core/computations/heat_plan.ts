/** What a heat run will do: by the plan that the office pinned, or else by the method's own times: no forecast. */
import type { ResultValue } from '../entries.ts'
import { exact } from './figures.ts'
import type { Plan, PlanFigures } from './plan_figures.ts'
import { find, type Question } from './question.ts'
import { type Answer, type Line, line, Refusal, verdictOf } from './shapes.ts'

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
/** The plan's band was made for losses to its own air; common practice, no source. */
const OTHER_AIR_DK = 50

export function heatPlan(asked: Question): Answer {
  const { soak_s } = asked.settings ?? {}
  if (soak_s === undefined) throw new Refusal('settings', 'no_run')
  const plan = find(asked, 'plan', 'plan')
  if (plan === undefined) {
    return {
      model: 'method-times-1',
      values: [...methodTimes(asked), ...limits(asked)],
      verdict: 'none',
      lines: [line('no_forecast')],
      sources: ['method_limits'],
    }
  }
  const lines = linesOf(asked, plan, soak_s.value)
  return {
    model: plan.figures.model,
    values: [...planned(plan.figures), ...limits(asked)],
    verdict: verdictOf(lines),
    lines,
    sources: ['heat_plan', 'method_limits'],
  }
}

function methodTimes({ settings = {} }: Question): readonly ResultValue[] {
  return TIMES.map(([name, setting]) =>
    exact(name, Math.ceil((settings[setting]?.value ?? 0) / S_PER_MIN), 'min'),
  )
}

function limits({ settings = {} }: Question): readonly ResultValue[] {
  return LIMITS.flatMap((name) => {
    const found = settings[name]
    return found === undefined ? [] : [exact(name, found.value, found.unit, found.decimals)]
  })
}

/** What begins is told early, what ends late; what never comes is left out. */
function planned(found: PlanFigures): readonly ResultValue[] {
  const rows: readonly (readonly [name: string, at_s: number | null, whole: (minutes: number) => number])[] =
    [
      ['workable', found.workable_s, Math.ceil],
      ['workable_from', found.from_s, Math.floor],
      ['workable_until', found.until_s, Math.ceil],
      ['soak', found.soak_s, Math.ceil],
      ['heat_until', found.heat_until_s, Math.ceil],
      ['release_until', found.release_until_s, Math.ceil],
    ]
  const peaks = [
    ['bond_peak', found.bond_peak_dC],
    ['metal_peak', found.metal_peak_dC],
  ] as const
  return [
    ...rows.flatMap(([name, at_s, whole]) =>
      at_s === null ? [] : [exact(name, whole(at_s / S_PER_MIN), 'min')],
    ),
    ...peaks.flatMap(([name, [low, high]]) => [
      exact(`${name}_cold_end`, low, 'C', 1),
      exact(`${name}_hot_end`, high, 'C', 1),
    ]),
  ]
}

function linesOf(asked: Question, { plan, figures }: Plan, soak_s: number): readonly Line[] {
  const { workable_s, until_s } = figures
  return [
    line('planned', 'note', [plan.slice(0, 12)]),
    ...(figures.feasible ? [] : [line('plan_infeasible', 'stop')]),
    ...(workable_s !== null && until_s === null ? [line('plan_never_late')] : []),
    ...(figures.soak_s < soak_s ? [line('plan_other_soak', 'ask')] : []),
    ...tooHot(asked, 'bond', 'leading_max', figures.bond_peak_dC[1]),
    ...tooHot(asked, 'metal', 'metal_max', figures.metal_peak_dC[1]),
    ...otherAir(asked, figures.ambient_dC),
  ]
}

function tooHot(
  { settings = {} }: Question,
  where: string,
  setting: string,
  high_dC: number,
): readonly Line[] {
  const limit = settings[setting]
  if (limit === undefined || high_dC * 10 ** limit.decimals <= limit.value * 10) return []
  const high = exact('high', high_dC, 'C', 1)
  return [
    line(`plan_hot_${where}`, 'note', [], [high, exact('limit', limit.value, limit.unit, limit.decimals)]),
  ]
}

function otherAir(asked: Question, ambient_dC: number): readonly Line[] {
  const air = find(asked, 'air', 'quantity')
  if (air === undefined) return []
  const scale = 10 ** air.decimals
  if (Math.abs(air.value * 10 - ambient_dC * scale) <= OTHER_AIR_DK * scale) return []
  const values = [exact('air', air.value, air.unit, air.decimals), exact('planned', ambient_dC, 'C', 1)]
  return [line('plan_other_air', 'note', [], values)]
}
