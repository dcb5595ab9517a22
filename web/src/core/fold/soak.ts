/** Soak and peak of a heat run, from the readings of its zone's sensors. */
import type { Entry, RunReadingBody } from '../entries.ts'
import type { HeatSettings } from '../method.ts'
import type { RunState } from '../state.ts'

export type RunReading = Extract<Entry, { kind: 'reading' }> & { readonly body: RunReadingBody }
/** What a run is judged by, from the method document that it was begun under. */
export type Judging = { readonly settings: HeatSettings; readonly sensors: readonly string[] }

type Soak = Pick<RunState, 'soak_ms' | 'soak_counts_to_ms' | 'peak' | 'peak_sensor'>

const NOTHING: Soak = { soak_ms: 0, soak_counts_to_ms: 0 }

/** Nothing counts where the method that says what to judge by is not held. */
export function soakOf(readings: readonly RunReading[], judging: Judging | undefined): Soak {
  if (judging === undefined) return NOTHING
  const own = readings.filter((reading) => isOfRun(reading, judging))
  return { ...soakedTime(own, judging), ...peakOf(own) }
}

/** Of a sensor of the zone, in the unit and decimals that the limits are written in. */
export function isOfRun({ body }: RunReading, { settings, sensors }: Judging): boolean {
  return (
    sensors.includes(body.sensor) &&
    body.unit === settings.sensors_unit &&
    body.decimals === settings.decimals
  )
}

type Moment = { readonly run_ms: number; readonly lagging: number }

/** Neighbouring moments count if the lagging sensor is hot enough at both and the gap is within the limit. */
function soakedTime(
  readings: readonly RunReading[],
  { settings, sensors }: Judging,
): Pick<Soak, 'soak_ms' | 'soak_counts_to_ms'> {
  let soak_ms = 0
  let soak_counts_to_ms = 0
  let before: Moment | undefined
  for (const moment of momentsOf(readings, sensors)) {
    const gap = moment.run_ms - (before?.run_ms ?? moment.run_ms)
    const isHot = Math.min(moment.lagging, before?.lagging ?? moment.lagging) >= settings.lagging_min
    if (before !== undefined && isHot && gap <= settings.gap_max_s * 1000) {
      soak_ms += gap
      soak_counts_to_ms = moment.run_ms
    }
    before = moment
  }
  return { soak_ms, soak_counts_to_ms }
}

/** The times at which every sensor has a value, each with the coldest, in order. */
function momentsOf(readings: readonly RunReading[], sensors: readonly string[]): Moment[] {
  const bySensor = new Map<number, Map<string, number>>()
  for (const { body } of readings) {
    for (const [run_ms, value] of body.points) {
      const values = bySensor.get(run_ms) ?? new Map<string, number>()
      values.set(body.sensor, Math.min(value, values.get(body.sensor) ?? value))
      bySensor.set(run_ms, values)
    }
  }
  return [...bySensor]
    .filter(([, values]) => sensors.every((sensor) => values.has(sensor)))
    .map(([run_ms, values]) => ({ run_ms, lagging: Math.min(...values.values()) }))
    .sort((one, other) => one.run_ms - other.run_ms)
}

function peakOf(readings: readonly RunReading[]): Pick<Soak, 'peak' | 'peak_sensor'> {
  let peak: number | undefined
  let peak_sensor = ''
  for (const { body } of readings) {
    for (const [, value] of body.points) {
      const isHotter = peak === undefined || value > peak
      if (!isHotter && !(value === peak && body.sensor < peak_sensor)) continue
      peak = value
      peak_sensor = body.sensor
    }
  }
  return peak === undefined ? {} : { peak, peak_sensor }
}
