/** Heat runs as the office watches them: where each is, soak counted, last reading of every sensor. */

import type { Entry, Purpose } from '../entries.ts'
import type { HeatSettings, MethodDoc, Moment, ZoneDoc } from '../method.ts'
import type { CardState, RunState } from '../state.ts'
import { entryOf, type JobLog, madeAtMs } from './office_log.ts'
import { askOf, placeOf } from './office_names.ts'
import type { Figure } from './office_what.ts'
import type { RunSoFar } from './run_profile.ts'

export type SensorView = { readonly id: string; readonly name: string; readonly last?: Figure }

export type RunView = {
  readonly run: string
  readonly zone: string
  readonly purpose: Purpose
  readonly stepTitle: string
  readonly by: string
  readonly on_ms: number
  readonly moments: readonly Moment[]
  readonly state: 'hot' | 'cold' | 'aborted_hot' | 'aborted'
  readonly soak_ms: number
  readonly soak_wanted_ms: number
  /** What its silhouette is filled by. */
  readonly soFar: RunSoFar
  readonly lagging_min?: Figure
  readonly leading_max?: Figure
  readonly peak?: Figure
  readonly peakSensor: string
  readonly sensors: readonly SensorView[]
  readonly pads: readonly {
    readonly id: string
    readonly name: string
    readonly lifted: boolean
    readonly down: boolean
  }[]
}

function stateOf(run: RunState): RunView['state'] {
  const cold = run.moments.includes('cold')
  if (run.aborted) return cold ? 'aborted' : 'aborted_hot'
  return cold ? 'cold' : 'hot'
}

function settingsOf(log: JobLog, on: Entry<'heat'>): HeatSettings | undefined {
  if (on.body.act !== 'on') return undefined
  const ask = askOf(placeOf(log, on.body), on.body.ask)
  return ask?.kind === 'heat_run' ? ask.settings : undefined
}

function lastPoint(log: JobLog, run: RunState, sensor: string): Figure | undefined {
  let at = -1
  let last: Figure | undefined
  for (const hash of run.readings) {
    const body = entryOf(log, hash, 'reading')?.body
    if (body === undefined || !('run' in body) || body.sensor !== sensor) continue
    for (const [run_ms, value] of body.points) {
      if (run_ms < at) continue
      at = run_ms
      last = { value, unit: body.unit, decimals: body.decimals }
    }
  }
  return last
}

function sensorViews(log: JobLog, run: RunState, zone: ZoneDoc | undefined): readonly SensorView[] {
  return (zone?.sensors ?? []).map((sensor) => {
    const last = lastPoint(log, run, sensor.id)
    return { ...sensor, ...(last ? { last } : {}) }
  })
}

function limitsOf(settings: HeatSettings | undefined): Pick<RunView, 'lagging_min' | 'leading_max'> {
  if (settings === undefined) return {}
  const { sensors_unit: unit, decimals } = settings
  return {
    lagging_min: { value: settings.lagging_min, unit, decimals },
    leading_max: { value: settings.leading_max, unit, decimals },
  }
}

function peakOf(run: RunState, settings: HeatSettings | undefined): Pick<RunView, 'peak'> {
  if (run.peak === undefined) return {}
  return { peak: { value: run.peak, unit: settings?.sensors_unit ?? 'C', decimals: settings?.decimals ?? 0 } }
}

function zoneOf(method: MethodDoc | undefined, zone: string): ZoneDoc | undefined {
  return method?.zones.find((one) => one.id === zone)
}

function padsOf(on: Entry<'heat'>, run: RunState, zone: ZoneDoc | undefined): RunView['pads'] {
  if (on.body.act !== 'on') return []
  return on.body.pads.map((id) => ({
    id,
    name: zone?.pads.find((pad) => pad.id === id)?.name ?? id,
    lifted: run.lifted.includes(id),
    down: run.turned_down.includes(id),
  }))
}

function soFarOf(run: RunState, settings: HeatSettings | undefined, on_ms: number, pads: number): RunSoFar {
  const { moments, aborted, soak_ms, turned_down, lifted } = run
  const { soak_s = 0, ramp_s = 0 } = settings ?? {}
  const pads_down = new Set([...turned_down, ...lifted]).size
  return { on_ms, moments, aborted, soak_ms, soak_s, ramp_s, pads, pads_down }
}

function runView(log: JobLog, run: RunState): RunView | undefined {
  const on = entryOf(log, run.run, 'heat')
  const item = log.byHash.get(run.run)
  if (on === undefined || item === undefined || on.body.act !== 'on') return undefined
  const settings = settingsOf(log, on)
  const zone = zoneOf(log.methods[on.body.digest], run.zone)
  return {
    run: run.run,
    zone: zone?.name ?? run.zone,
    purpose: run.purpose,
    stepTitle: placeOf(log, on.body)?.step.title ?? run.step,
    by: on.by,
    on_ms: madeAtMs(item),
    moments: run.moments,
    state: stateOf(run),
    soak_ms: run.soak_ms,
    soak_wanted_ms: (settings?.soak_s ?? 0) * 1000,
    soFar: soFarOf(run, settings, madeAtMs(item), on.body.pads.length),
    ...limitsOf(settings),
    ...peakOf(run, settings),
    peakSensor: run.peak_sensor ?? '',
    sensors: sensorViews(log, run, zone),
    pads: padsOf(on, run, zone),
  }
}

/** All runs, the newest first. */
export function runViews(log: JobLog, state: CardState): readonly RunView[] {
  return state.runs.flatMap((run) => runView(log, run) ?? []).sort((a, b) => b.on_ms - a.on_ms)
}
