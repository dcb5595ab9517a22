/** Readings against every point of the lattice: sums of squares a point, whole or without some readings. */
import { add, type Figures, type Lattice, mixed } from './lattice.ts'
import { type Curve, curveAt, type Family } from './response_set.ts'

/** A misfit beyond this counts as this. */
const CUT_K = 400

/** One sensor's temperature at a time after switch-on. */
export type LiveReading = { readonly at_s: number; readonly sensor: string; readonly T_C: number }

/** A reading against the lattice: what is predicted less what was read, at each point. */
type Met = LiveReading & {
  /** Number of its sensor in the family. */
  readonly column: number
  /** What each member says of it. */
  readonly members_C: Float64Array
  readonly misfit_K: Figures
  /** Whether a misfit was cut: then it is no longer mixed of the members'. */
  readonly cut: boolean
}

export type Misfits = {
  readonly lattice: Lattice
  readonly readings: readonly Met[]
  readonly squares: Figures
}

/** Readings of other sensors than the family's are left out. */
export function misfitsOf(family: Family, lattice: Lattice, all: readonly LiveReading[]): Misfits {
  const readings = all.flatMap((one) => metOf(family, lattice, one) ?? [])
  const squares = new Float64Array(lattice.count)
  for (const { misfit_K } of readings) addSquares(squares, misfit_K)
  return { lattice, readings, squares }
}

const NO_CURVE: Curve = new Float64Array(1)

function metOf({ sensors, members, times_s }: Family, lattice: Lattice, one: LiveReading): Met | undefined {
  const column = sensors.indexOf(one.sensor)
  if (column < 0) return undefined
  const members_C = Float64Array.from(members, ({ sensors_C }) =>
    curveAt(times_s, sensors_C[column] ?? NO_CURVE, one.at_s),
  )
  const misfit_K = mixed(lattice, members_C)
  let cut = false
  for (let p = 0; p < lattice.count; p += 1) {
    const off = (misfit_K[p] ?? 0) - one.T_C
    cut ||= Math.abs(off) > CUT_K
    misfit_K[p] = Math.max(-CUT_K, Math.min(CUT_K, off))
  }
  return { ...one, column, members_C, misfit_K, cut }
}

function addSquares(to: Figures, misfit_K: Figures): void {
  for (let p = 0; p < to.length; p += 1) to[p] = (to[p] ?? 0) + (misfit_K[p] ?? 0) ** 2
}

type From = { readonly start_s: number; readonly count: number; readonly squares: Figures }

/** Of one sensor from each start on: how many readings, and their sum of squares; the latest start first. */
export function squaresFrom(misfits: Misfits, sensor: string, starts_s: readonly number[]): readonly From[] {
  const own = misfits.readings.filter((one) => one.sensor === sensor).sort((a, b) => b.at_s - a.at_s)
  const sum = new Float64Array(misfits.lattice.count)
  let count = 0
  return [...starts_s].reverse().map((start_s) => {
    for (let next = own[count]; next !== undefined && next.at_s >= start_s; next = own[count]) {
      addSquares(sum, next.misfit_K)
      count += 1
    }
    return { start_s, count, squares: sum.slice() }
  })
}

/** Each point's misfits times one figure a reading, summed: what a pattern in the readings would take off them. */
export function along({ lattice, readings }: Misfits, pattern: readonly number[]): Figures {
  // Predictions are mixed of the members', so their sums are, too: 25 of them instead of one a point.
  const members = new Float64Array(readings[0]?.members_C.length ?? 0)
  const cut = new Float64Array(lattice.count)
  let read = 0
  for (const [j, one] of readings.entries()) {
    const figure = pattern[j] ?? 0
    if (one.cut) {
      add(cut, figure, one.misfit_K)
    } else {
      add(members, figure, one.members_C)
      read += figure * one.T_C
    }
  }
  const sums = mixed(lattice, members)
  for (let p = 0; p < sums.length; p += 1) sums[p] = (sums[p] ?? 0) - read + (cut[p] ?? 0)
  return sums
}
