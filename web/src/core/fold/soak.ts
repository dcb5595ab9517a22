/** Soak and peaks of a heat run, from the readings of its zone's sensors. */
import type { Entry, RunReadingBody } from '../entries.ts'
import type { HeatSettings, SensorOf } from '../method.ts'
import type { PeakState, RunState } from '../state.ts'
import { byText } from './order.ts'

export type RunReading = Extract<Entry, { kind: 'reading' }> & { readonly body: RunReadingBody }
/** What a run is judged by, from the method document that it was begun under; sensors with what each is on. */
export type Judging = {
  readonly settings: HeatSettings
  readonly sensors: ReadonlyMap<string, SensorOf>
}

type Soak = Pick<RunState, 'soak_ms' | 'soak_counts_to_ms' | 'peaks' | 'peak' | 'peak_sensor'>

const NOTHING: Soak = { soak_ms: 0, soak_counts_to_ms: 0, peaks: [] }

/** Nothing counts where the method that says what to judge by is not held. */
export function soakOf(readings: readonly RunReading[], judging: Judging | undefined): Soak {
  if (judging === undefined) return NOTHING
  const own = readings.filter((reading) => isOfRun(reading, judging))
  const peaks = peaksOf(own)
  return { ...soakedTime(own, judging), peaks, ...hottestOf(peaks, judging) }
}

/** Of a sensor of the zone, in the unit and decimals that the limits are written in. */
export function isOfRun({ body }: RunReading, { settings, sensors }: Judging): boolean {
  return (
    sensors.has(body.sensor) && body.unit === settings.sensors_unit && body.decimals === settings.decimals
  )
}

/** Each place has its own maximum; one that the method does not set is none. */
export function maximumAt(sensor: string, { settings, sensors }: Judging): number {
  const { leading_max, metal_max = Infinity, neighbour_max = Infinity } = settings
  return { bond: leading_max, metal: metal_max, neighbour: neighbour_max }[sensors.get(sensor) ?? 'bond']
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
  const onBond = [...sensors].flatMap(([sensor, where]) => (where === 'bond' ? [sensor] : []))
  for (const moment of momentsOf(readings, onBond)) {
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

/** The times at which every one of these sensors has a value, each with the coldest, in order. */
function momentsOf(readings: readonly RunReading[], sensors: readonly string[]): Moment[] {
  const bySensor = new Map<number, Map<string, number>>()
  for (const { body } of readings.filter((reading) => sensors.includes(reading.body.sensor))) {
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

function peaksOf(readings: readonly RunReading[]): PeakState[] {
  const highest = new Map<string, number>()
  for (const { body } of readings) {
    for (const [, value] of body.points) {
      highest.set(body.sensor, Math.max(value, highest.get(body.sensor) ?? value))
    }
  }
  return [...highest]
    .map(([sensor, value]) => ({ sensor, value }))
    .sort((one, other) => byText(one.sensor, other.sensor))
}

/** The highest of bond and metal; of equal ones the first by its sensor. */
function hottestOf(peaks: readonly PeakState[], { sensors }: Judging): Pick<Soak, 'peak' | 'peak_sensor'> {
  const own = peaks.filter(({ sensor }) => sensors.get(sensor) !== 'neighbour')
  const peak = Math.max(...own.map(({ value }) => value))
  const first = own.find(({ value }) => value === peak)
  return first === undefined ? {} : { peak, peak_sensor: first.sensor }
}
