/** Eigenvalues and eigenvectors of a small symmetric matrix, by cyclic Jacobi rotations (Jacobi 1846). */

export type Matrix = readonly (readonly number[])[]
export type Eigen = { readonly value: number; readonly vector: readonly number[] }

const MOST_SWEEPS = 50

/** Largest first. Vectors are of unit length. */
export function eigenOf(symmetric: Matrix): readonly Eigen[] {
  const n = symmetric.length
  const a = symmetric.map((row) => [...row])
  const v = a.map((_, i) => a.map((_, j) => (i === j ? 1 : 0)))
  for (let sweep = 0; sweep < MOST_SWEEPS && offDiagonal(a) > 0; sweep += 1) {
    for (let p = 0; p < n - 1; p += 1) {
      for (let q = p + 1; q < n; q += 1) turn(a, v, p, q)
    }
  }
  return a
    .map((_, i) => ({ value: at(a, i, i), vector: v.map((_, row) => at(v, row, i)) }))
    .sort((one, other) => other.value - one.value)
}

/** One rotation in the plane of p and q that makes a[p][q] zero. */
function turn(a: number[][], v: number[][], p: number, q: number): void {
  const apq = at(a, p, q)
  if (apq === 0) return
  const theta = (at(a, q, q) - at(a, p, p)) / (2 * apq)
  const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.hypot(1, theta))
  const c = 1 / Math.hypot(1, t)
  const s = t * c
  for (const k of a.keys()) mix(a, k, p, k, q, c, s)
  for (const k of a.keys()) mix(a, p, k, q, k, c, s)
  for (const k of v.keys()) mix(v, k, p, k, q, c, s)
  set(a, p, q, 0)
  set(a, q, p, 0)
}

function mix(m: number[][], i: number, j: number, k: number, l: number, c: number, s: number): void {
  const [first, second] = [at(m, i, j), at(m, k, l)]
  set(m, i, j, c * first - s * second)
  set(m, k, l, s * first + c * second)
}

/** What is left beside the diagonal, as far as it is more than the machine's noise. */
function offDiagonal(a: number[][]): number {
  const size = a.reduce((sum, row) => sum + row.reduce((all, one) => all + Math.abs(one), 0), 0)
  const off = a.reduce(
    (sum, row, i) => sum + row.reduce((all, one, j) => all + (i === j ? 0 : Math.abs(one)), 0),
    0,
  )
  return off > size * Number.EPSILON ? off : 0
}

export function at(m: Matrix, i: number, j: number): number {
  return m[i]?.[j] ?? 0
}

function set(m: number[][], i: number, j: number, value: number): void {
  const row = m[i]
  if (row !== undefined) row[j] = value
}
