/** The verdict on a heat run from its entries: each line with figure and limit, as the server's own says it. */
import type { LaterAct, Purpose, ResultValue } from '../entries.ts'
import type { HeatSettings, SensorOf } from '../method.ts'
import { aboveMs, type Row, type Sensors, steepest, wholeMoments } from './curves.ts'

/** Name and form of these rules: a changed rule is a new model. */
export const VERDICT_MODEL = 'heat_verdict/2'

/** `value` at the scale of the settings' `decimals`. */
export type RunRow = {
  readonly sensor: string
  readonly of: SensorOf
  readonly run_ms: number
  readonly value: number
}
export type RunActRow = { readonly act: LaterAct; readonly pad: string; readonly run_ms: number }
export type RunInput = {
  readonly purpose: Purpose
  readonly aborted: boolean
  readonly readings: readonly RunRow[]
  readonly acts: readonly RunActRow[]
}

export type LineCode =
  | 'ramp'
  | 'soak'
  | 'soak_gap'
  | 'bond_peak'
  | 'metal_peak'
  | 'metal_minutes'
  | 'neighbour_peak'
  | 'release'
  | 'cooling'
  | 'cold'
  | 'sensor_gap'
/** `not_recorded`: there is a limit, and no act was recorded to judge from. */
export type Standing = 'conforming' | 'deviation' | 'not_conforming' | 'not_judged' | 'not_recorded'
export type VerdictLine = {
  readonly code: LineCode
  readonly at: readonly string[]
  /** `figure`, and `limit` where there is one. */
  readonly values: readonly ResultValue[]
  readonly standing: Standing
}
export type Overall = 'conforming' | 'conforming_with_deviations' | 'not_conforming' | 'not_judged'
export type HeatVerdict = {
  readonly model: string
  readonly overall: Overall
  /** For the result entry: a deviation is told by its line, and is no failure. */
  readonly verdict: 'inside' | 'outside' | 'none'
  readonly lines: readonly VerdictLine[]
  readonly values: readonly ResultValue[]
}

type Judged = {
  readonly run: RunInput
  readonly settings: HeatSettings
  readonly earlier: readonly RunInput[]
  readonly bond: Sensors
  readonly metal: Sensors
  readonly neighbour: Sensors
}

/** Too little read to say anything: no bond sensor at all. */
const NOTHING: HeatVerdict = {
  model: VERDICT_MODEL,
  overall: 'not_judged',
  verdict: 'none',
  lines: [],
  values: [],
}

/** By purpose: in a removal a short soak is a deviation, in a cure it is no cure. Too hot is the damage in both. */
export function heatVerdict(
  run: RunInput,
  settings: HeatSettings,
  earlier: readonly RunInput[] = [],
): HeatVerdict {
  const of = (what: SensorOf) => sensorsOf(run, what)
  const judged: Judged = {
    ...{ run, settings, earlier },
    ...{ bond: of('bond'), metal: of('metal'), neighbour: of('neighbour') },
  }
  if (judged.bond.size === 0) return NOTHING
  const lines = LINES.flatMap((line) => line(judged) ?? [])
  const has = (standing: Standing) => lines.some((line) => line.standing === standing)
  const overall: Overall = has('not_conforming')
    ? 'not_conforming'
    : has('deviation') || has('not_recorded') || run.aborted
      ? 'conforming_with_deviations'
      : 'conforming'
  return {
    model: VERDICT_MODEL,
    overall,
    verdict: overall === 'not_conforming' ? 'outside' : 'inside',
    lines,
    values: lines.map(figureOf),
  }
}

function figureOf({ code, values }: VerdictLine): ResultValue {
  const [figure] = values
  return { value: 0, unit: '', decimals: 0, ...figure, name: code }
}

function sensorsOf(run: RunInput, of: SensorOf): Sensors {
  const rows = new Map<string, Row[]>()
  for (const one of run.readings) {
    if (one.of !== of) continue
    rows.set(one.sensor, [...(rows.get(one.sensor) ?? []), [one.run_ms, one.value]])
  }
  for (const one of rows.values()) one.sort(([a, x], [b, y]) => a - b || x - y)
  return rows
}

type Made = {
  readonly figure: number
  readonly limit: number | undefined
  readonly unit: string
  decimals: number
}

/** `keeps`: whether the figure, not rounded, stays within the limit. */
function line(code: LineCode, made: Made, keeps: boolean, otherwise: Standing): VerdictLine {
  const { figure, limit, unit, decimals } = made
  const value = (name: string, amount: number) => ({ name, value: Math.round(amount), unit, decimals })
  const values = [value('figure', figure), ...(limit === undefined ? [] : [value('limit', limit)])]
  const standing = limit === undefined ? 'not_judged' : keeps ? 'conforming' : otherwise
  return { code, at: [code], values, standing }
}

const LINES: readonly ((judged: Judged) => VerdictLine | undefined)[] = [
  ({ run, settings, bond }) =>
    rateLine('ramp', settings, settings.ramp_max, steepest(bond, releaseMs(run), 1)),
  soakLine,
  soakGapLine,
  ({ settings, bond }) => peakLine('bond_peak', settings, settings.leading_max, bond),
  ({ settings, metal }) => peakLine('metal_peak', settings, settings.metal_max, metal),
  metalMinutes,
  ({ settings, neighbour }) => peakLine('neighbour_peak', settings, settings.neighbour_max, neighbour),
  releaseLine,
  coolingLine,
  coldLine,
  gapLine,
]

/** K/min with one more decimal than the readings have. */
function rateLine(
  code: LineCode,
  { decimals }: HeatSettings,
  limit: number | undefined,
  rate: number,
  unrecorded = false,
): VerdictLine {
  const made = { figure: rate * 10, limit: limit === undefined ? undefined : limit * 10, unit: 'K/min' }
  const otherwise = unrecorded ? 'not_recorded' : 'deviation'
  return line(code, { ...made, decimals: decimals + 1 }, !unrecorded && rate <= (limit ?? 0), otherwise)
}

/** Where no release was recorded the steepest fall of the whole run is told: nobody can say what of it was the cooling. */
function coolingLine({ run, settings, bond }: Judged): VerdictLine {
  const from_ms = releaseMs(run)
  const unrecorded = from_ms === Number.POSITIVE_INFINITY
  const rate = steepest(bond, unrecorded ? 0 : from_ms, -1)
  return rateLine('cooling', settings, settings.cooling_max, rate, unrecorded)
}

const MINUTES = { unit: 'min', decimals: 1 } as const
const tenths = (ms: number) => ms / 6_000

function countedStretches({ bond, settings }: Judged): readonly (readonly [from: number, to: number])[] {
  const moments = wholeMoments(bond)
  return moments.flatMap(([to, lagging], i) => {
    const [from, before] = moments[i - 1] ?? [to, lagging]
    const counts =
      i > 0 && to - from <= settings.gap_max_s * 1000 && Math.min(before, lagging) >= settings.lagging_min
    return counts ? [[from, to] as const] : []
  })
}

const lengthOf = (stretches: readonly (readonly [number, number])[]) =>
  stretches.reduce((sum, [from, to]) => sum + to - from, 0)

function soakLine(judged: Judged): VerdictLine {
  const { run, settings } = judged
  const [soak_ms, want_ms] = [lengthOf(countedStretches(judged)), settings.soak_s * 1000]
  const otherwise = run.purpose === 'cure' ? 'not_conforming' : 'deviation'
  const made = { figure: tenths(soak_ms), limit: tenths(want_ms), ...MINUTES }
  return line('soak', made, soak_ms >= want_ms, otherwise)
}

/** What the soak lost between its first and last counted moment: power gone, a sensor not read. */
function soakGapLine(judged: Judged): VerdictLine {
  const counted = countedStretches(judged)
  const lost_ms = (counted.at(-1)?.[1] ?? 0) - (counted[0]?.[0] ?? 0) - lengthOf(counted)
  return line('soak_gap', { figure: tenths(lost_ms), limit: 0, ...MINUTES }, lost_ms <= 0, 'deviation')
}

function peakLine(
  code: LineCode,
  { sensors_unit: unit, decimals }: HeatSettings,
  limit: number | undefined,
  sensors: Sensors,
): VerdictLine | undefined {
  if (sensors.size === 0) return undefined
  const figure = Math.max(...[...sensors.values()].flatMap((rows) => rows.map(([, value]) => value)))
  return line(code, { figure, limit, unit, decimals }, figure <= (limit ?? 0), 'not_conforming')
}

/** Minutes of the metal above its limit, with those of earlier runs on the same metal. */
function metalMinutes({ metal, settings, earlier }: Judged): VerdictLine | undefined {
  const { metal_max } = settings
  if (metal.size === 0 || metal_max === undefined) return undefined
  const worst = (sensors: Sensors) =>
    Math.max(0, ...[...sensors.values()].map((rows) => aboveMs(rows, metal_max)))
  const ms = [metal, ...earlier.map((run) => sensorsOf(run, 'metal'))].reduce(
    (sum, one) => sum + worst(one),
    0,
  )
  return line('metal_minutes', { figure: tenths(ms), limit: undefined, ...MINUTES }, true, 'not_conforming')
}

const RELEASING: readonly LaterAct[] = ['turn_down', 'lift', 'off']

function releaseMs(run: RunInput): number {
  const times = run.acts.filter(({ act }) => RELEASING.includes(act)).map(({ run_ms }) => run_ms)
  return Math.min(Number.POSITIVE_INFINITY, ...times)
}

/** Pads that were turned down or lifted before one that should have gone first, or never. */
function releaseLine({ run, settings }: Judged): VerdictLine | undefined {
  const { release } = settings
  if (release.length === 0) return undefined
  const acts = [...run.acts].sort((a, b) => a.run_ms - b.run_ms)
  const done = acts.filter(({ act, pad }) => RELEASING.includes(act) && release.includes(pad))
  const ranks = [...new Set(done.map(({ pad }) => pad))].map((pad) => release.indexOf(pad))
  const early = ranks.filter((rank, i) => rank > Math.min(rank, ...ranks.slice(i + 1))).length
  const amiss = early + release.length - ranks.length
  return line('release', { figure: amiss, limit: 0, unit: 'pads', decimals: 0 }, amiss === 0, 'deviation')
}

function coldLine({ bond, metal, settings }: Judged): VerdictLine {
  const { cold_below: limit, sensors_unit: unit, decimals } = settings
  const figure = Math.max(...[...bond.values(), ...metal.values()].flatMap((rows) => rows.at(-1)?.[1] ?? []))
  return line('cold', { figure, limit, unit, decimals }, figure <= limit, 'deviation')
}

/** Until the release begins: what cools is read for its rate and its end. */
function gapLine({ run, bond, settings }: Judged): VerdictLine {
  const until_ms = releaseMs(run)
  const gaps = [...bond.values()].flatMap((rows) =>
    rows.flatMap(([at], i) => (i > 0 && at <= until_ms ? [at - (rows[i - 1]?.[0] ?? at)] : [])),
  )
  const longest_ms = Math.max(0, ...gaps)
  const made = { figure: longest_ms / 1000, limit: settings.gap_max_s, unit: 's', decimals: 0 }
  return line('sensor_gap', made, longest_ms <= settings.gap_max_s * 1000, 'deviation')
}
