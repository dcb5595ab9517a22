/** Readings against every point of the lattice: sums of squares a point, whole or without some readings. */
import { mixed, type Point } from './lattice.ts'
import { type Curve, curveAt, type Family } from './response_set.ts'

/** A misfit beyond this counts as this. */
const CUT_K = 400

/** One sensor's temperature at a time after switch-on. */
export type LiveReading = { readonly at_s: number; readonly sensor: string; readonly T_C: number }

export type Misfits = {
  readonly points: readonly Point[]
  readonly readings: readonly LiveReading[]
  /** Number of each reading's sensor in the family. */
  readonly columns: readonly number[]
  /** What each member says of each reading. */
  readonly predicted_C: readonly Float64Array[]
  /** What is predicted less what was read, a row a point. */
  readonly K: Float64Array
  /** Whether a misfit was cut: then the rows are no longer mixed of the members'. */
  readonly cut: boolean
  /** Sum of squares of each point. */
  readonly squares: Float64Array
}

const NO_CURVE: Curve = new Float64Array(1)

/** Readings of other sensors than the family's are left out. */
export function misfitsOf(family: Family, points: readonly Point[], all: readonly LiveReading[]): Misfits {
  const readings = all.filter(({ sensor }) => family.sensors.includes(sensor))
  const columns = readings.map(({ sensor }) => family.sensors.indexOf(sensor))
  const predicted_C = family.members.map(({ sensors_C }) =>
    Float64Array.from(readings, ({ at_s }, j) =>
      curveAt(family.times_s, sensors_C[columns[j] ?? 0] ?? NO_CURVE, at_s),
    ),
  )
  const n = readings.length
  const K = new Float64Array(points.length * n)
  const squares = new Float64Array(points.length)
  let cut = false
  for (const [p, point] of points.entries()) {
    for (let j = 0; j < n; j += 1) {
      const off = mixed(point, (member) => predicted_C[member]?.[j] ?? 0) - (readings[j]?.T_C ?? 0)
      const kept = Math.max(-CUT_K, Math.min(CUT_K, off))
      cut ||= kept !== off
      K[p * n + j] = kept
      squares[p] = (squares[p] ?? 0) + kept * kept
    }
  }
  return { points, readings, columns, predicted_C, K, cut, squares }
}

/** Of one sensor's readings: after each start, how many there are and each point's sum of squares; latest start first. */
export function squaresFrom(
  { points, readings, K, squares }: Misfits,
  sensor: string,
  starts_s: readonly number[],
): readonly { readonly start_s: number; readonly count: number; readonly squares: Float64Array }[] {
  const own = readings
    .flatMap(({ sensor: of, at_s }, j) => (of === sensor ? [{ at_s, j }] : []))
    .sort((a, b) => b.at_s - a.at_s)
  const n = readings.length
  const sum = new Float64Array(squares.length)
  let count = 0
  return [...starts_s]
    .sort((a, b) => b - a)
    .map((start_s) => {
      for (let next = own[count]; next !== undefined && next.at_s >= start_s; next = own[count]) {
        for (let p = 0; p < points.length; p += 1) sum[p] = (sum[p] ?? 0) + (K[p * n + next.j] ?? 0) ** 2
        count += 1
      }
      return { start_s, count, squares: sum.slice() }
    })
}

/** Each point's misfits times one figure a reading, summed: what a pattern in the readings would take off them. */
export function along(misfits: Misfits, pattern: readonly number[]): Float64Array {
  const { points, readings, predicted_C, K, cut } = misfits
  if (cut) return Float64Array.from(points, (_, p) => dot(pattern, K, p * readings.length))
  // Predictions are mixed of the members', so their sums are, too: 25 of them instead of one a point.
  const members = predicted_C.map((one) => dot(pattern, one, 0))
  const read = pattern.reduce((sum, figure, j) => sum + figure * (readings[j]?.T_C ?? 0), 0)
  return Float64Array.from(points, (point) => mixed(point, (member) => members[member] ?? 0) - read)
}

function dot(pattern: readonly number[], figures: Float64Array, from: number): number {
  return pattern.reduce((sum, figure, j) => sum + figure * (figures[from + j] ?? 0), 0)
}
