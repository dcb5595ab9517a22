/** A finished heat run against its limits: the verdict of the run's own page, as the answer of a step. */
import type { LaterAct, Purpose } from '../entries.ts'
import { heatVerdict as judge, type RunInput, type Standing } from '../live/verdict.ts'
import type { HeatSettings } from '../method.ts'
import type { Run } from './inputs.ts'
import { find, type Question, want } from './question.ts'
import { type Answer, line, Refusal, type Tone } from './shapes.ts'

const TONE: { readonly [One in Standing]: Tone } = {
  conforming: 'note',
  deviation: 'note',
  not_judged: 'note',
  not_recorded: 'note',
  not_conforming: 'stop',
}

/** The newest run of the ask; minutes of the metal also of earlier runs on the same metal. */
export function heatVerdict(asked: Question): Answer {
  const run = want(asked, 'run', 'runs').runs.at(-1)
  if (run === undefined) throw new Refusal('run', 'not_there')
  const settings = settingsOf(asked, run)
  const earlier = find(asked, 'earlier_runs', 'runs')?.runs ?? []
  const found = judge(runInput(run), settings, earlier.map(runInput))
  return {
    model: found.model,
    values: found.values,
    verdict: found.verdict,
    lines: found.lines.map(({ code, standing, values }) =>
      line(`heat_${code}`, TONE[standing], [standing], values),
    ),
    sources: ['method_limits'],
  }
}

export function runInput(run: Run): RunInput {
  const readings = run.sensors.flatMap(({ sensor, of, points }) =>
    points.map(([run_ms, value]) => ({ sensor, of, run_ms, value })),
  )
  return {
    purpose: (run.purpose ?? 'removal') as Purpose,
    aborted: run.aborted,
    readings,
    acts: (run.acts ?? []).map(([act, pad, run_ms]) => ({ act: act as LaterAct, pad, run_ms })),
  }
}

const NEEDED = ['lagging_min', 'leading_max', 'soak_s', 'gap_max_s', 'ramp_s', 'cold_below'] as const
const MAY = ['metal_max', 'neighbour_max', 'ramp_max', 'cooling_max', 'lift_below', 'setpoint'] as const

function settingsOf({ settings = {} }: Question, run: Run): HeatSettings {
  const told = (names: readonly string[]) =>
    names.flatMap((name) => {
      const found = settings[name]
      return found === undefined ? [] : [[name, found.value] as const]
    })
  const needed = told(NEEDED)
  if (needed.length < NEEDED.length) throw new Refusal('settings', 'no_run')
  const figures = Object.fromEntries([...needed, ...told(MAY)])
  const unit = settings.lagging_min?.unit ?? ''
  return {
    ...figures,
    sensors_unit: unit,
    decimals: run.decimals,
    release: run.release ?? [],
  } as unknown as HeatSettings
}
