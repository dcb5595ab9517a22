/** What a pinned plan says of a run now: the fit of its readings, when workable, what the readings look like. */
import { type BandPoint, bandOf, sensorsReachS } from '../live/bands.ts'
import { type Fit, fitOf, type LooksLike } from '../live/fit.ts'
import type { LiveReading } from '../live/misfits.ts'
import { isSensorFixed, remarkOf } from '../live/remarks.ts'
import { curveOf, type ResponseDoc } from '../live/response_set.ts'
import type { RunRow } from '../live/verdict.ts'
import type { HeatSettings } from '../method.ts'
import { preparedOf } from './card_plans.ts'
import type { ActRow } from './run_rows.ts'

export type LiveForecast = {
  readonly fit: Fit
  /** How many readings it rests on. */
  readonly counted: number
  /** Only readings from here on count: a pad was pressed on again, or a sensor fastened. */
  readonly since_ms: number
  /** When the lagging sensor reaches the method's minimum; undefined for never, and where the curves do not hold. */
  readonly soak_ms: number | undefined
  /** Power went: the curves take it for granted, so nothing is forecast from then on. */
  readonly power_gone_ms: number | undefined
}

type Facts = {
  readonly rows: readonly RunRow[]
  readonly acts: readonly ActRow[]
  readonly settings: Pick<HeatSettings, 'decimals' | 'lagging_min'>
}

/** The curves hold for what else was read. */
const HOLDS: readonly LooksLike[] = ['', 'sensor_off']

type Told = { readonly key: string; readonly forecast: LiveForecast }

/** By run: those of one zone stand on one document, and would push each other out. */
const told = new WeakMap<ResponseDoc, Map<string, Told>>()

/** Fitted anew only when the readings of that run are others than at the last time. */
export function forecastOf(document: ResponseDoc, facts: Facts, run = ''): LiveForecast {
  const { readings, since_ms } = readingsOf(facts)
  const key = JSON.stringify([readings, facts.settings.lagging_min])
  const runs = told.get(document) ?? new Map<string, Told>()
  told.set(document, runs)
  const kept = runs.get(run)
  const power_gone_ms = powerGoneMs(facts.acts)
  if (kept?.key === key) return { ...kept.forecast, since_ms, power_gone_ms }
  const set = preparedOf(document)
  const fit = fitOf(set, readings)
  const scale = 10 ** facts.settings.decimals
  const soak_s = sensorsReachS(set, fit.best, bondColumns(document), facts.settings.lagging_min / scale)
  const forecast: LiveForecast = {
    ...{ fit, since_ms, power_gone_ms },
    counted: readings.filter(({ sensor }) => document.sensors.includes(sensor)).length,
    soak_ms: HOLDS.includes(fit.looks_like) ? msOf(soak_s) : undefined,
  }
  runs.set(run, { key, forecast })
  return forecast
}

export const msOf = (at_s: number | null): number | undefined =>
  at_s === null || !Number.isFinite(at_s) ? undefined : Math.round(at_s * 1000)

/** Sensors on the bond, by their columns in the response set. */
function bondColumns({ layout, sensors }: ResponseDoc): readonly number[] {
  return layout.sensors
    .filter(({ role }) => role === 'adhesive' || role === 'bond')
    .map(({ id }) => sensors.indexOf(id))
}

/** While all pads heat: from the first pad turned down on, it is another run than the family's. */
function readingsOf({ rows, acts, settings }: Facts): {
  readonly readings: readonly LiveReading[]
  readonly since_ms: number
} {
  const until_ms = Math.min(Number.POSITIVE_INFINITY, ...acts.flatMap(endsMs))
  const since_ms = Math.max(
    0,
    ...acts.flatMap((one) => (remarkOf(one.text) === 'reclamped' ? [one.run_ms] : [])),
  )
  const scale = 10 ** settings.decimals
  const fixed_ms = new Map(sensorsIn(rows).map((sensor) => [sensor, fixedMs(acts, sensor)]))
  const counting = rows.filter(
    ({ run_ms, sensor }) => run_ms > Math.max(since_ms, fixed_ms.get(sensor) ?? 0) && run_ms <= until_ms,
  )
  const readings = thinned(counting).map(({ run_ms, sensor, value }) => ({
    ...{ at_s: run_ms / 1000, sensor },
    T_C: value / scale,
  }))
  return { readings, since_ms }
}

function sensorsIn(rows: readonly RunRow[]): readonly string[] {
  return [...new Set(rows.map(({ sensor }) => sensor))]
}

/** When a sensor was last fastened again; 0 for never. */
function fixedMs(acts: readonly ActRow[], sensor: string): number {
  return Math.max(0, ...acts.flatMap((one) => (isSensorFixed(one.text, sensor) ? [one.run_ms] : [])))
}

/** A logger's thousands say no more than these: evenly taken of each sensor, the newest among them. */
const MOST_OF_A_SENSOR = 60

function thinned(rows: readonly RunRow[]): readonly RunRow[] {
  return sensorsIn(rows).flatMap((sensor) => {
    const own = rows.filter((row) => row.sensor === sensor)
    const every = Math.ceil(own.length / MOST_OF_A_SENSOR)
    return own.filter((_, i) => (own.length - 1 - i) % every === 0)
  })
}

function endsMs({ act, text, run_ms }: ActRow): readonly number[] {
  const ends = ['turn_down', 'lift', 'off', 'abort'].includes(act) || remarkOf(text) === 'power_gone'
  return ends ? [run_ms] : []
}

function powerGoneMs(acts: readonly ActRow[]): number | undefined {
  return acts.find(({ text }) => remarkOf(text) === 'power_gone')?.run_ms
}

const bands = new WeakMap<Fit, readonly BandPoint[]>()

/** The band of the lagging sensor, to be laid beside what was read. */
export function laggingBand(document: ResponseDoc, { fit }: LiveForecast): readonly BandPoint[] {
  const band = bands.get(fit) ?? bandOf(preparedOf(document), fit, bondColumns(document))
  bands.set(fit, band)
  return band
}

/** The lagging sensor through release and cool-down, as planned. */
export function plannedLagging(document: ResponseDoc): readonly { at_s: number; T_C: number }[] {
  const columns = bondColumns(document)
  const curves = columns.map((column) => curveOf(document.plan.s[column] ?? []))
  return document.plan.clock_s.map((at_s, k) => ({
    at_s,
    T_C: Math.min(...curves.map((curve) => curve[k] ?? Number.POSITIVE_INFINITY)),
  }))
}
