/**
 * Fits a run's readings to its response set: when workable, with a band, or what the readings look like instead.
 * The twin of the server's `heat/fit.py`, which tells the rule; tests/vectors/live holds the two together.
 */
import { type Guess, healthyOf, leastRmsK, othersOf, SIGMA_K } from './explanations.ts'
import { mixed, type Point, pointsOf, STRETCH } from './lattice.ts'
import { type LiveReading, misfitsOf } from './misfits.ts'
import type { Family } from './response_set.ts'

const EFFECTIVE = 24
const MODEL_SHARE = 0.06
export const [LOW, MIDDLE, HIGH] = [0.1, 0.5, 0.9] as const
const MARGIN = 14
const NO_FIT_K = 6

export type LooksLike = '' | 'pad_lifting' | 'sensor_off' | 'draught' | 'wrong_stack_up'

/** What the readings say. Times after switch-on, infinity for never; `looks_like` is '' where they fit. */
export type Forecast = {
  readonly workable_s: number
  readonly from_s: number
  readonly until_s: number
  readonly contact: number
  readonly loss: number
  readonly misfit_K: number
  readonly looks_like: LooksLike
  /** The pad or sensor. */
  readonly names: string
}

/** A forecast with what its curves are drawn from: the best point of the lattice, and the weight of every one. */
export type Fit = Forecast & { readonly best: Point; readonly weights: Float64Array }

/** What does not change with the readings: made once for a response set. */
export type Prepared = {
  readonly family: Family
  readonly points: readonly Point[]
  /** When the coldest place of each point is workable. */
  readonly workable_s: readonly number[]
}

export function prepared(family: Family, workable_C: number): Prepared {
  const points = pointsOf(family)
  return { family, points, workable_s: points.map((point) => workableS(family, point, workable_C)) }
}

function workableS({ members, times_s }: Family, point: Point, workable_C: number): number {
  let before_C = 0
  for (const [k, at_s] of times_s.entries()) {
    const T_C = mixed(point, (member) => members[member]?.coldest_C[k] ?? 0)
    if (T_C >= workable_C) {
      const from_s = times_s[k - 1] ?? at_s
      return k === 0 ? at_s : from_s + ((workable_C - before_C) / (T_C - before_C)) * (at_s - from_s)
    }
    before_C = T_C
  }
  return Number.POSITIVE_INFINITY
}

/** An explanation is named only if its cost is under the healthy one's by more than MARGIN. */
export function fitOf(set: Prepared, readings: readonly LiveReading[]): Fit {
  const misfits = misfitsOf(set.family, set.points, readings)
  const healthy = healthyOf(misfits)
  let best: Guess = healthy
  for (const guess of othersOf(misfits, set.family.sensors, set.family.lifting))
    if (guess.cost < healthy.cost - MARGIN && guess.cost < best.cost && leastRmsK(guess) <= NO_FIT_K)
      best = guess
  return forecastOf(set, best)
}

function forecastOf({ family, points, workable_s }: Prepared, guess: Guess): Fit {
  const share = Math.min(1, EFFECTIVE / Math.max(guess.kept, 1)) / SIGMA_K ** 2
  const cost = points.map(({ prior }, p) => (guess.squares[p] ?? 0) * share + prior)
  const least = Math.min(...cost)
  const weights = Float64Array.from(cost, (one) => Math.exp(-(one - least) / 2))
  const number = cost.indexOf(least)
  const best = points[number]
  if (best === undefined) throw new Error('a lattice has points')
  const misfit_K = guess.kept === 0 ? 0 : Math.sqrt((guess.squares[number] ?? 0) / guess.kept)
  const order = inOrder(workable_s)
  const [low, middle, high] = [LOW, MIDDLE, HIGH].map((one) => markOf(workable_s, weights, order, one))
  const spread = Number.isFinite(middle) ? MODEL_SHARE * (middle ?? 0) : 0
  return {
    workable_s: middle ?? 0,
    from_s: Math.max((low ?? 0) - spread, 0),
    until_s: (high ?? 0) + spread,
    ...{ contact: best.contact, loss: best.loss, misfit_K, best, weights },
    looks_like: guess.looks_like === '' && misfit_K > NO_FIT_K ? noFit(family, best) : guess.looks_like,
    names: guess.names,
  }
}

/** Beyond the loss axis's end it cools faster than any member does. */
function noFit({ loss }: Family, best: Point): LooksLike {
  return best.loss > (loss.at(-1) ?? 0) * Math.exp(STRETCH / 2) ? 'draught' : 'wrong_stack_up'
}

/** Numbers of figures from the lowest on, infinite ones last. */
export function inOrder(figures: ArrayLike<number>): readonly number[] {
  const numbers = Array.from(figures, (_, i) => i)
  return numbers.sort((a, b) => {
    const [x, y] = [figures[a] ?? 0, figures[b] ?? 0]
    return x === y ? a - b : x - y
  })
}

/** The figure below which this share of all weight lies. */
export function markOf(
  figures: ArrayLike<number>,
  weights: Float64Array,
  order: readonly number[],
  share: number,
): number {
  const whole = order.reduce((sum, i) => sum + (weights[i] ?? 0), 0)
  let upto = 0
  for (const i of order) {
    upto += weights[i] ?? 0
    if (upto >= share * whole) return figures[i] ?? 0
  }
  return Number.POSITIVE_INFINITY
}
