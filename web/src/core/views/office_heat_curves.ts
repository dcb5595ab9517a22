/** The plan's curves as they are drawn: lines in minutes and degrees, limits, and each pad's share of its power. */
import type { PlanAnswer, ReleaseAct } from './office_heat_answer.ts'
import type { Joint } from './office_heat_document.ts'

export type ChartPoint = readonly [at_min: number, T_C: number]
export type LineKind = 'coldest' | 'hottest' | 'metal' | 'sensor'
export type ChartLine = {
  readonly kind: LineKind
  readonly id: string
  readonly points: readonly ChartPoint[]
}
export type LimitKind = 'workable' | 'maximum' | 'metal'
export type ChartLimit = { readonly kind: LimitKind; readonly T_C: number }
export type PowerPiece = { readonly from_min: number; readonly until_min: number; readonly share: number }
export type PadPower = { readonly pad: string; readonly pieces: readonly PowerPiece[] }
export type HeatChart = {
  readonly end_min: number
  readonly top_C: number
  readonly bottom_C: number
  readonly lines: readonly ChartLine[]
  /** The coldest bondline over the band, low side and high side. */
  readonly band: readonly [low: readonly ChartPoint[], high: readonly ChartPoint[]] | undefined
  readonly limits: readonly ChartLimit[]
  readonly pads: readonly PadPower[]
  readonly heat_until_min: number | undefined
}

const ROOM_AFTER_MIN = 15
const TOP_STEP_C = 50
const ROOM_ABOVE_C = 20

const points = (t_s: readonly number[], T_C: readonly number[]): readonly ChartPoint[] =>
  t_s.map((t, number) => [t / 60, T_C[number] ?? 0])

const until = (line: readonly ChartPoint[], end_min: number): readonly ChartPoint[] =>
  line.filter(([t]) => t <= end_min)

export function heatChart(answer: PlanAnswer, joint: Joint): HeatChart {
  const { curves } = answer
  const limits = limitsOf(answer, joint)
  const lines = linesOf(answer)
  const end_min = endOf(answer)
  const all = [...lines.flatMap((line) => line.points.map(([, T]) => T)), ...limits.map((one) => one.T_C)]
  const band = answer.bands?.coldest_bondline_C ?? curves.coldest_band_C
  return {
    end_min,
    top_C: Math.ceil((Math.max(...all, TOP_STEP_C) + ROOM_ABOVE_C) / TOP_STEP_C) * TOP_STEP_C,
    bottom_C: Math.floor(Math.min(0, ...all) / TOP_STEP_C) * TOP_STEP_C,
    lines: lines.map((line) => ({ ...line, points: until(line.points, end_min) })),
    band: band && [until(points(band.t_s, band.low), end_min), until(points(band.t_s, band.high), end_min)],
    limits,
    pads: joint.pads.map(({ id }) => ({ pad: id, pieces: powerOf(answer.release, id, end_min) })),
    heat_until_min: answer.heat_until_min === 'never' ? undefined : answer.heat_until_min,
  }
}

function linesOf({ curves }: PlanAnswer): readonly ChartLine[] {
  const line = (kind: LineKind, id: string, T_C: readonly number[]): ChartLine => ({
    kind,
    id,
    points: points(curves.t_s, T_C),
  })
  return [
    ...Object.entries(curves.sensors).map(([id, T_C]) => line('sensor', id, T_C)),
    ...(curves.metal_C ? [line('metal', 'metal', curves.metal_C)] : []),
    line('hottest', 'hottest', curves.hottest_bondline_C),
    line('coldest', 'coldest', curves.coldest_bondline_C),
  ]
}

function limitsOf(answer: PlanAnswer, joint: Joint): readonly ChartLimit[] {
  const metal = joint.layers.filter((one) => one.role === 'metal').map((one) => one.limit_C)
  const lowest = Math.min(...metal.filter((limit) => limit !== undefined))
  const limits: readonly ChartLimit[] = [
    { kind: 'workable', T_C: joint.workable_C },
    { kind: 'maximum', T_C: joint.maximum_C },
    { kind: 'metal', T_C: lowest },
  ]
  return limits.filter(
    (one) => Number.isFinite(one.T_C) && (one.kind !== 'metal' || answer.layers.length > 0),
  )
}

/** Until some time after the last act; the cool-down to the very end says no more. */
function endOf({ curves, release }: PlanAnswer): number {
  const last_min = (curves.t_s.at(-1) ?? 0) / 60
  const acts = release.map((act) => act.at_min)
  return acts.length === 0 ? last_min : Math.min(last_min, Math.ceil(Math.max(...acts)) + ROOM_AFTER_MIN)
}

const shareOf = (act: ReleaseAct): number => (act.act === 'turn_down' ? (act.power_share ?? 0) : 0)

/** Full power until the first act, then what each act leaves. */
function powerOf(release: readonly ReleaseAct[], pad: string, end_min: number): readonly PowerPiece[] {
  const acts = release.filter((act) => act.pad === pad)
  const starts = [
    { from_min: 0, share: 1 },
    ...acts.map((act) => ({ from_min: act.at_min, share: shareOf(act) })),
  ]
  return starts.map((start, number) => ({ ...start, until_min: starts[number + 1]?.from_min ?? end_min }))
}

/** The value of a line at a time, between its two points. */
export function valueAt_C(line: ChartLine, at_min: number): number | undefined {
  const next = line.points.findIndex(([t]) => t >= at_min)
  const [after, before] = [line.points[next], line.points[next - 1]]
  if (after === undefined) return line.points.at(-1)?.[1]
  if (before === undefined) return after[1]
  const [t0, T0] = before
  const [t1, T1] = after
  return T0 + ((T1 - T0) * (at_min - t0)) / (t1 - t0)
}
