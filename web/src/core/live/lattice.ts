/**
 * Curves between and a little beyond a family's members: a lattice over ln(contact) and ln(loss), bilinear in both.
 * The twin of the lattice in the server's `heat/fit.py`.
 */
import type { Family } from './response_set.ts'

export const LATTICE = 25
export const STRETCH = 0.35
/** The family's ends are the 5 % and 95 % marks. */
const BAND_SIGMAS = 1.64

/** A point is two neighbours on each axis, with the share of the upper one. */
type Knot = { readonly at: number; readonly low: number; readonly share: number; readonly prior: number }

export type Point = {
  readonly contact: number
  readonly loss: number
  readonly prior: number
  /** Numbers of four members, and their weights. */
  readonly members: readonly [number, number, number, number]
  readonly weights: readonly [number, number, number, number]
}

export function pointsOf(family: Family): readonly Point[] {
  const losses = knotsOf(family.loss)
  const columns = family.loss.length
  return knotsOf(family.contact).flatMap((c) =>
    losses.map((l): Point => {
      const first = c.low * columns + l.low
      return {
        contact: Math.exp(c.at),
        loss: Math.exp(l.at),
        prior: c.prior + l.prior,
        members: [first, first + 1, first + columns, first + columns + 1],
        weights: [
          (1 - c.share) * (1 - l.share),
          (1 - c.share) * l.share,
          c.share * (1 - l.share),
          c.share * l.share,
        ],
      }
    }),
  )
}

/** From STRETCH beyond one end to STRETCH beyond the other; the outermost cells go on straight. */
function knotsOf(factors: readonly number[]): readonly Knot[] {
  const logs = factors.map(Math.log)
  const [first, last] = [logs[0] ?? 0, logs.at(-1) ?? 0]
  const [from, to] = [first - STRETCH, last + STRETCH]
  return Array.from({ length: LATTICE }, (_, i) => {
    const at = i === LATTICE - 1 ? to : from + (i * (to - from)) / (LATTICE - 1)
    const above = logs.findIndex((one) => one >= at)
    const low = Math.min(Math.max((above < 0 ? logs.length : above) - 1, 0), logs.length - 2)
    const [x0, x1] = [logs[low] ?? 0, logs[low + 1] ?? 1]
    const half = at < 0 ? -first / BAND_SIGMAS : last / BAND_SIGMAS
    return { at, low, share: (at - x0) / (x1 - x0), prior: (at / half) ** 2 }
  })
}

/** What this point makes of one figure of each member. */
export function mixed({ members, weights }: Point, figure: (member: number) => number): number {
  return (
    weights[0] * figure(members[0]) +
    weights[1] * figure(members[1]) +
    weights[2] * figure(members[2]) +
    weights[3] * figure(members[3])
  )
}
