/** The response set of a plan as it comes: curves in tenths of a degree, each its first value and then differences. */

export type PadStep = {
  readonly at_s: number
  readonly pad: string
  readonly act: 'turn_down' | 'lift' | 'off'
  readonly permille: number
}

type MemberDoc = {
  /** One curve a sensor. */
  readonly s: readonly (readonly number[])[]
  readonly c: readonly number[]
  readonly h: readonly number[]
  readonly m: readonly number[]
}

export type ResponseDoc = {
  readonly form: number
  readonly zone: string
  readonly plan: string
  readonly purpose: 'removal' | 'cure'
  readonly ambient_dC: number
  readonly workable_dC: number
  readonly maximum_dC: number
  readonly contact_permille: readonly number[]
  readonly loss_permille: readonly number[]
  readonly clock_s: readonly number[]
  readonly sensors: readonly string[]
  /** Rows of contact, columns of loss. */
  readonly members: readonly (readonly MemberDoc[])[]
  /** How far each sensor falls behind, minute by minute, once that pad lifts. */
  readonly lifting: readonly { readonly pad: string; readonly drops: readonly (readonly number[])[] }[]
  readonly acts: readonly PadStep[]
  /** The line that comes before all figures. */
  readonly first: string
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
export function curveOf(differences: readonly number[]): Curve {
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
