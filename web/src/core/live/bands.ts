/** Curves of a forecast: the coldest of some sensors, or of the whole bond, with the band that the fit leaves. */
import { type Fit, HIGH, inOrder, LOW, MIDDLE, markOf, type Prepared } from './fit.ts'
import { type Figures, mixed, mixedAt } from './lattice.ts'
import { type Curve, crossingS } from './response_set.ts'

export type BandPoint = {
  readonly at_s: number
  readonly low_C: number
  readonly mid_C: number
  readonly high_C: number
}

/** Members at one time, mixed at each point; of several curves the coldest. */
function coldestAt({ family, lattice }: Prepared, columns: readonly number[], k: number): Figures {
  const [first, ...rest] = columns.map((column) =>
    mixed(
      lattice,
      family.members.map(({ sensors_C }) => sensors_C[column]?.[k] ?? 0),
    ),
  )
  if (first === undefined)
    return mixed(
      lattice,
      family.members.map(({ coldest_C }) => coldest_C[k] ?? 0),
    )
  for (const one of rest)
    for (let p = 0; p < first.length; p += 1) first[p] = Math.min(first[p] ?? 0, one[p] ?? 0)
  return first
}

/** Of the sensors in these columns the coldest; without columns, of the whole bond. Every `every`-th time of the clock. */
export function bandOf(
  set: Prepared,
  { weights }: Pick<Fit, 'weights'>,
  columns: readonly number[],
  every = 2,
): readonly BandPoint[] {
  const points: BandPoint[] = []
  for (let k = 0; k < set.family.times_s.length; k += every) {
    const figures = coldestAt(set, columns, k)
    const order = inOrder(figures)
    const mark = (share: number) => markOf(figures, weights, order, share)
    points.push({
      at_s: set.family.times_s[k] ?? 0,
      low_C: mark(LOW),
      mid_C: mark(MIDDLE),
      high_C: mark(HIGH),
    })
  }
  return points
}

/** When the coldest of these sensors reaches a temperature, by the best point of the fit. */
export function sensorsReachS(
  { family, lattice }: Prepared,
  best: number,
  columns: readonly number[],
  wanted_C: number,
): number {
  const coldest: Curve = family.times_s.map((_, k) =>
    Math.min(
      ...columns.map((column) =>
        mixedAt(
          lattice,
          best,
          family.members.map(({ sensors_C }) => sensors_C[column]?.[k] ?? 0),
        ),
      ),
    ),
  )
  return columns.length === 0 ? Number.POSITIVE_INFINITY : crossingS(family.times_s, coldest, wanted_C)
}
