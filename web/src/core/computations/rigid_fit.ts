/**
 * Rigid least-squares fit of named points: |second - (R first + t)| with a proper rotation, by the quaternion that
 * is the greatest eigenvector of Horn's 4 x 4 matrix (Horn, J. Opt. Soc. Am. A 4 (1987) 629). No reflection can come
 * out of it. Points on a line leave the turn about it open and are refused, and so are places that fit as well in
 * other turns, as two exchanged corners of a square do: there the two greatest eigenvalues are equal.
 * Model "best-fit-1".
 */
import { at, eigenOf, type Matrix } from './eigen.ts'

export type Point = readonly [x: number, y: number, z: number]
export type Points3 = ReadonlyMap<string, Point>
export type RigidFit = {
  readonly residual: Points3
  /** Length of each residual, mm. */
  readonly lengths: ReadonlyMap<string, number>
  readonly turned_deg: number
  readonly nearALine: boolean
  /** A mirror image would have fitted better: two points may be exchanged. */
  readonly mirrored: boolean
}

const LEAST_POINTS = 3
const ON_A_LINE = 1e-6
const NEAR_A_LINE = 0.05
const OPEN_TURN = 1e-3
const AXES: readonly (0 | 1 | 2)[] = [0, 1, 2]

/** Undefined where the turn is open: a line on either side, or exchanged places. Both carry the same names. */
export function rigidFit(first: Points3, second: Points3): RigidFit | undefined {
  const names = [...first.keys()]
  const a = centred(names.map((name) => first.get(name) ?? [0, 0, 0]))
  const b = centred(names.map((name) => second.get(name) ?? [0, 0, 0]))
  const [[spread, across], [spreadThere, acrossThere]] = [spreadOf(a), spreadOf(b)]
  if (names.length < LEAST_POINTS || spread < ON_A_LINE || spreadThere < ON_A_LINE) return undefined
  const S = products(a, b)
  const [best, next] = eigenOf(hornMatrix(S))
  const held = ((best?.value ?? 0) - (next?.value ?? 0)) / 2
  if (held < OPEN_TURN * across * acrossThere) return undefined
  const [w = 1, x = 0, y = 0, z = 0] = best?.vector ?? []
  const R = rotationOf(w, x, y, z)
  const residual = a.map((point, i): Point => {
    const turned = AXES.map((row) =>
      AXES.reduce((sum: number, column) => sum + at(R, row, column) * point[column], 0),
    )
    return AXES.map((axis) => (b[i]?.[axis] ?? 0) - (turned[axis] ?? 0)) as unknown as Point
  })
  return {
    residual: new Map(names.map((name, i) => [name, residual[i] ?? [0, 0, 0]])),
    lengths: new Map(names.map((name, i) => [name, Math.hypot(...(residual[i] ?? [0, 0, 0]))])),
    turned_deg: (2 * Math.atan2(Math.hypot(x, y, z), Math.abs(w)) * 180) / Math.PI,
    nearALine: spread < NEAR_A_LINE,
    mirrored: isMirrored(S),
  }
}

function centred(points: readonly Point[]): readonly Point[] {
  const mean = AXES.map((axis) => points.reduce((sum, point) => sum + point[axis], 0) / points.length)
  return points.map((point) => AXES.map((axis) => point[axis] - (mean[axis] ?? 0)) as unknown as Point)
}

/** Second singular value of the points over the first, and itself. */
function spreadOf(points: readonly Point[]): readonly [ratio: number, second: number] {
  const [first = 0, second = 0] = eigenOf(products(points, points)).map((one) =>
    Math.sqrt(Math.max(0, one.value)),
  )
  return [first ? second / first : 0, second]
}

/** Sums of a[i] b[j] over the points. */
function products(a: readonly Point[], b: readonly Point[]): Matrix {
  return AXES.map((i) => AXES.map((j) => a.reduce((sum, point, n) => sum + point[i] * (b[n]?.[j] ?? 0), 0)))
}

function hornMatrix(S: Matrix): Matrix {
  const [xx, xy, xz] = [at(S, 0, 0), at(S, 0, 1), at(S, 0, 2)]
  const [yx, yy, yz] = [at(S, 1, 0), at(S, 1, 1), at(S, 1, 2)]
  const [zx, zy, zz] = [at(S, 2, 0), at(S, 2, 1), at(S, 2, 2)]
  return [
    [xx + yy + zz, yz - zy, zx - xz, xy - yx],
    [yz - zy, xx - yy - zz, xy + yx, zx + xz],
    [zx - xz, xy + yx, yy - xx - zz, yz + zy],
    [xy - yx, zx + xz, yz + zy, zz - xx - yy],
  ]
}

function rotationOf(w: number, x: number, y: number, z: number): Matrix {
  return [
    [w * w + x * x - y * y - z * z, 2 * (x * y - w * z), 2 * (x * z + w * y)],
    [2 * (x * y + w * z), w * w - x * x + y * y - z * z, 2 * (y * z - w * x)],
    [2 * (x * z - w * y), 2 * (y * z + w * x), w * w - x * x - y * y + z * z],
  ]
}

/** The products' determinant is under zero, and the points do not lie in one plane. */
function isMirrored(S: Matrix): boolean {
  const det =
    at(S, 0, 0) * (at(S, 1, 1) * at(S, 2, 2) - at(S, 1, 2) * at(S, 2, 1)) -
    at(S, 0, 1) * (at(S, 1, 0) * at(S, 2, 2) - at(S, 1, 2) * at(S, 2, 0)) +
    at(S, 0, 2) * (at(S, 1, 0) * at(S, 2, 1) - at(S, 1, 1) * at(S, 2, 0))
  const size = Math.max(...S.flat().map(Math.abs))
  return det < -(size ** 3) * ON_A_LINE ** 2
}
