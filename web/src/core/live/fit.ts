/**
 * Fits a run's readings to its response set: when workable, with a band, or what the readings look like instead.
 * The twin of the server's `heat/fit.py`, which tells the rule; tests/vectors/live holds the two together.
 */
import { type Guess, healthyOf, leastRmsK, othersOf, SIGMA_K } from './explanations.ts'
import { type Figures, type Lattice, latticeOf, mixed, STRETCH } from './lattice.ts'
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

/** A forecast with what its curves are drawn from: the number of the best point, and the weight of every one. */
export type Fit = Forecast & { readonly best: number; readonly weights: Figures }

/** What does not change with the readings: made once for a response set. */
export type Prepared = {
  readonly family: Family
  readonly lattice: Lattice
  /** When the coldest place of each point is workable, and the points in the order of it. */
  readonly workable_s: Figures
  readonly order: readonly number[]
}

export function prepared(family: Family, workable_C: number): Prepared {
  const lattice = latticeOf(family)
  const workable_s = workableS(family, lattice, workable_C)
  return { family, lattice, workable_s, order: inOrder(workable_s) }
}

function workableS({ members, times_s }: Family, lattice: Lattice, workable_C: number): Figures {
  const reached_s = new Float64Array(lattice.count).fill(Number.POSITIVE_INFINITY)
  let before_C: Figures = new Float64Array(lattice.count)
  for (let k = 0; k < times_s.length; k += 1) {
    const [from_s, at_s] = [times_s[k - 1] ?? 0, times_s[k] ?? 0]
    const now_C = mixed(
      lattice,
      members.map(({ coldest_C }) => coldest_C[k] ?? 0),
    )
    for (let p = 0; p < lattice.count; p += 1) {
      const [before, now] = [before_C[p] ?? 0, now_C[p] ?? 0]
      if (now < workable_C || Number.isFinite(reached_s[p])) continue
      reached_s[p] = k === 0 ? at_s : from_s + ((workable_C - before) / (now - before)) * (at_s - from_s)
    }
    before_C = now_C
  }
  return reached_s
}

/** An explanation is named only if its cost is under the healthy one's by more than MARGIN. */
export function fitOf(set: Prepared, readings: readonly LiveReading[]): Fit {
  const misfits = misfitsOf(set.family, set.lattice, readings)
  const healthy = healthyOf(misfits)
  let best: Guess = healthy
  for (const guess of othersOf(misfits, set.family.sensors, set.family.lifting))
    if (guess.cost < healthy.cost - MARGIN && guess.cost < best.cost && leastRmsK(guess) <= NO_FIT_K)
      best = guess
  return forecastOf(set, best)
}

function forecastOf({ family, lattice, workable_s, order }: Prepared, guess: Guess): Fit {
  const share = Math.min(1, EFFECTIVE / Math.max(guess.kept, 1)) / SIGMA_K ** 2
  const cost = lattice.prior.map((prior, p) => (guess.squares[p] ?? 0) * share + prior)
  const best = cost.reduce((found, one, p) => (one < (cost[found] ?? 0) ? p : found), 0)
  const weights = cost.map((one) => Math.exp(-(one - (cost[best] ?? 0)) / 2))
  const misfit_K = guess.kept === 0 ? 0 : Math.sqrt(Math.max(0, guess.squares[best] ?? 0) / guess.kept)
  const mark = (one: number) => markOf(workable_s, weights, order, one)
  const [low, middle, high] = [mark(LOW), mark(MIDDLE), mark(HIGH)]
  const spread = Number.isFinite(middle) ? MODEL_SHARE * middle : 0
  const [contact, loss] = [lattice.contact[best] ?? 1, lattice.loss[best] ?? 1]
  return {
    ...{ workable_s: middle, from_s: Math.max(low - spread, 0), until_s: high + spread },
    ...{ contact, loss, misfit_K, best, weights },
    looks_like: guess.looks_like === '' && misfit_K > NO_FIT_K ? noFit(family, loss) : guess.looks_like,
    names: guess.names,
  }
}

/** Beyond the loss axis's end it cools faster than any member does. */
function noFit(family: Family, loss: number): LooksLike {
  return loss > (family.loss.at(-1) ?? 0) * Math.exp(STRETCH / 2) ? 'draught' : 'wrong_stack_up'
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
  weights: Figures,
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
