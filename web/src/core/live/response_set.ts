/** The response set of a plan as it comes: curves in tenths of a degree, each its first value and then differences. */

export type PadStep = {
  readonly at_s: number
  readonly pad: string
  readonly act: 'turn_down' | 'lift' | 'off'
  readonly permille: number
}

/** A curve is its first value and then differences, in tenths of a degree. */
type Steps = readonly number[]
type CurvesDoc = {
  /** One curve a sensor. */
  readonly s: readonly Steps[]
  /** Coldest and hottest bondline, hottest metal. */
  readonly c: Steps
  readonly h: Steps
  readonly m: Steps
}
type Spot = {
  readonly at_mm: readonly [x: number, y: number]
  /** The nearest sensor; empty without any. */
  readonly sensor: string
  readonly distance_mm?: number
  /** By how much that sensor reads more than the spot is. */
  readonly reads_more_dK?: number
}
export type BoxMm = readonly [x0: number, y0: number, x1: number, y1: number]

/** Where everything lies, in mm from the zone's lower left corner seen from the heated side. */
export type PlanLayout = {
  readonly size_mm: readonly [width: number, height: number]
  readonly bond: readonly BoxMm[]
  readonly pads: readonly { readonly id: string; readonly name: string; readonly box_mm: BoxMm }[]
  readonly sensors: readonly {
    readonly id: string
    readonly at_mm: readonly [x: number, y: number]
    readonly role: string
  }[]
  readonly neighbours: readonly {
    readonly id: string
    readonly name: string
    readonly kind: string
    readonly at_mm: readonly [x: number, y: number]
    readonly limit_C: number
    readonly peak_C: number
    /** How much farther away it would pass; 0 where it passes. */
    readonly passes_at_mm: number | null
  }[]
  readonly leading: Spot
  readonly lagging: Spot
}

/** Times after switch-on; null is never. */
export type PlanAnswer = {
  readonly sentence: string
  readonly feasible: boolean
  readonly troubles: readonly string[]
  readonly mended_by: string
  readonly workable_s: number | null
  readonly from_s: number | null
  readonly until_s: number | null
  readonly heat_until_s: number | null
  readonly soak_s: number
  readonly wedging_s: number
  /** When the whole zone can be wedged, end to end. */
  readonly window_from_s: number | null
  readonly window_until_s: number | null
  readonly bond_peak_dC: readonly [low: number, high: number]
  readonly metal_peak_dC: readonly [low: number, high: number]
  readonly touch_s: number | null
  readonly touch_for: string
}

/** The form of the document that this is the reader of. */
export const FORM = 2

export type ResponseDoc = {
  readonly form: number
  readonly zone: string
  /** Of the zone document. */
  readonly digest: string
  readonly model: string
  readonly name: string
  readonly invented: boolean
  readonly purpose: 'removal' | 'cure'
  readonly ambient_dC: number
  readonly workable_dC: number
  readonly maximum_dC: number
  readonly contact_permille: readonly number[]
  readonly loss_permille: readonly number[]
  readonly clock_s: readonly number[]
  readonly sensors: readonly string[]
  /** Rows of contact, columns of loss. */
  readonly members: readonly (readonly CurvesDoc[])[]
  /** How far each sensor falls behind, minute by minute, once that pad lifts. */
  readonly lifting: readonly { readonly pad: string; readonly drops: readonly Steps[] }[]
  readonly acts: readonly PadStep[]
  /** The line that comes before all figures. */
  readonly first: string
  readonly answer: PlanAnswer
  readonly layout: PlanLayout
  /** The planned run through release and cool-down. */
  readonly plan: CurvesDoc & { readonly clock_s: readonly number[] }
}

export type Curve = Float64Array
export type Member = {
  readonly sensors_C: readonly Curve[]
  readonly coldest_C: Curve
  readonly hottest_C: Curve
  readonly metal_C: Curve
}
export type Lifting = { readonly pad: string; readonly drops_K: readonly Curve[] }

/** Members one after another: all losses of the first contact, then of the second. */
export type Family = {
  readonly contact: readonly number[]
  readonly loss: readonly number[]
  readonly times_s: Curve
  readonly sensors: readonly string[]
  readonly members: readonly Member[]
  readonly lifting: readonly Lifting[]
}

export function familyOf(document: ResponseDoc): Family {
  return {
    contact: document.contact_permille.map((one) => one / 1000),
    loss: document.loss_permille.map((one) => one / 1000),
    times_s: Float64Array.from(document.clock_s),
    sensors: document.sensors,
    members: document.members.flat().map(({ s, c, h, m }) => ({
      sensors_C: s.map(curveOf),
      coldest_C: curveOf(c),
      hottest_C: curveOf(h),
      metal_C: curveOf(m),
    })),
    lifting: document.lifting.map(({ pad, drops }) => ({ pad, drops_K: drops.map(curveOf) })),
  }
}

/** Tenths as differences back to degrees. */
export function curveOf(differences: Steps): Curve {
  let tenths = 0
  return Float64Array.from(differences, (step) => {
    tenths += step
    return tenths / 10
  })
}

/** Straight between the times; before the first and after the last it stays. */
export function curveAt(times_s: Curve, curve: Curve, at_s: number): number {
  const last = times_s.length - 1
  if (at_s <= (times_s[0] ?? 0)) return curve[0] ?? 0
  if (at_s >= (times_s[last] ?? 0)) return curve[last] ?? 0
  let [low, high] = [0, last]
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if ((times_s[middle] ?? 0) <= at_s) low = middle
    else high = middle
  }
  const [t0, t1] = [times_s[low] ?? 0, times_s[high] ?? 0]
  const [y0, y1] = [curve[low] ?? 0, curve[high] ?? 0]
  return y0 + ((y1 - y0) / (t1 - t0)) * (at_s - t0)
}

/** When a curve first reaches a temperature, straight between its times; infinity for never. */
export function crossingS(times_s: Curve, curve: Curve, wanted_C: number): number {
  const k = curve.findIndex((T_C) => T_C >= wanted_C)
  if (k < 0) return Number.POSITIVE_INFINITY
  if (k === 0) return times_s[0] ?? 0
  const [t0, t1] = [times_s[k - 1] ?? 0, times_s[k] ?? 0]
  const [y0, y1] = [curve[k - 1] ?? 0, curve[k] ?? 0]
  return t0 + ((wanted_C - y0) / (y1 - y0)) * (t1 - t0)
}
