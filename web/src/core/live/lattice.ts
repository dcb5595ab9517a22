/**
 * Curves between and a little beyond a family's members: a lattice over ln(contact) and ln(loss), bilinear in both.
 * The twin of the lattice in the server's `heat/fit.py`; in plain arrays, for it is gone through at each reading.
 */
import type { Family } from './response_set.ts'

const ACROSS = 25
export const STRETCH = 0.35
/** The family's ends are the 5 % and 95 % marks. */
const BAND_SIGMAS = 1.64
const CORNERS = 4

/** A figure a point: all losses of the first contact, then of the second. */
export type Figures = Float64Array

export type Lattice = {
  readonly count: number
  readonly contact: Figures
  readonly loss: Figures
  readonly prior: Figures
  /** Four members a point, and their weights. */
  readonly members: Int32Array
  readonly weights: Float64Array
}

/** On one axis: the member below, the share of the one above. */
type Knot = { readonly at: number; readonly low: number; readonly share: number; readonly prior: number }

export function latticeOf(family: Family): Lattice {
  const columns = family.loss.length
  const losses = knotsOf(family.loss)
  const pairs = knotsOf(family.contact).flatMap((c) => losses.map((l) => [c, l] as const))
  return {
    count: pairs.length,
    contact: Float64Array.from(pairs, ([c]) => Math.exp(c.at)),
    loss: Float64Array.from(pairs, ([, l]) => Math.exp(l.at)),
    prior: Float64Array.from(pairs, ([c, l]) => c.prior + l.prior),
    members: Int32Array.from(
      pairs.flatMap(([c, l]) => {
        const first = c.low * columns + l.low
        return [first, first + 1, first + columns, first + columns + 1]
      }),
    ),
    weights: Float64Array.from(
      pairs.flatMap(([{ share: c }, { share: l }]) => [(1 - c) * (1 - l), (1 - c) * l, c * (1 - l), c * l]),
    ),
  }
}

/** From STRETCH beyond one end to STRETCH beyond the other; the outermost cells go on straight. */
function knotsOf(factors: readonly number[]): readonly Knot[] {
  const logs = factors.map(Math.log)
  const [first, last] = [logs[0] ?? 0, logs.at(-1) ?? 0]
  const [from, to] = [first - STRETCH, last + STRETCH]
  return Array.from({ length: ACROSS }, (_, i) => {
    const at = i === ACROSS - 1 ? to : from + (i * (to - from)) / (ACROSS - 1)
    const above = logs.findIndex((one) => one >= at)
    const low = Math.min(Math.max((above < 0 ? logs.length : above) - 1, 0), logs.length - 2)
    const [x0, x1] = [logs[low] ?? 0, logs[low + 1] ?? 1]
    const half = at < 0 ? -first / BAND_SIGMAS : last / BAND_SIGMAS
    return { at, low, share: (at - x0) / (x1 - x0), prior: (at / half) ** 2 }
  })
}

/** What every point makes of one figure a member. */
export function mixed({ count, members, weights }: Lattice, figures: ArrayLike<number>): Figures {
  const made = new Float64Array(count)
  for (let p = 0; p < count; p += 1) {
    let sum = 0
    for (let k = p * CORNERS; k < (p + 1) * CORNERS; k += 1)
      sum += (weights[k] ?? 0) * (figures[members[k] ?? 0] ?? 0)
    made[p] = sum
  }
  return made
}

/** What one point makes of one figure a member. */
export function mixedAt({ members, weights }: Lattice, p: number, figures: ArrayLike<number>): number {
  let sum = 0
  for (let k = p * CORNERS; k < (p + 1) * CORNERS; k += 1)
    sum += (weights[k] ?? 0) * (figures[members[k] ?? 0] ?? 0)
  return sum
}

/** Adds a pattern, so many times, to figures that are kept. */
export function add(to: Figures, times: number, pattern: Figures): void {
  for (let p = 0; p < to.length; p += 1) to[p] = (to[p] ?? 0) + times * (pattern[p] ?? 0)
}
