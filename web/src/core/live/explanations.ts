/** What readings may look like: nothing amiss, a pad lifting from a time on, a sensor off from a time on. */
import { add, type Figures } from './lattice.ts'
import { along, type Misfits, squaresFrom } from './misfits.ts'
import { curveAt, type Lifting } from './response_set.ts'

export const SIGMA_K = 2.5
const START_EVERY_S = 120
const LIFT_EVERY_S = 60
const SEVERITIES = [0.6, 1, 1.4] as const
const PAD_PRICE = 12
const OFF_PRICE = 16
const OFF_READING_PRICE = 7
const FEWEST_OFF = 2

/** One explanation: its cost against the readings, the squares that it leaves at each point, how many readings it keeps. */
export type Guess = {
  readonly looks_like: '' | 'pad_lifting' | 'sensor_off'
  readonly names: string
  readonly cost: number
  readonly squares: Figures
  readonly kept: number
}

export function healthyOf({ squares, readings }: Misfits): Guess {
  return { looks_like: '', names: '', cost: leastOf(squares), squares, kept: readings.length }
}

const leastOf = (squares: Figures) => leastFigure(squares) / SIGMA_K ** 2

/** What is subtracted may leave a hair less than nothing. */
function leastFigure(squares: Figures): number {
  let least = Number.POSITIVE_INFINITY
  for (let p = 0; p < squares.length; p += 1) least = Math.min(least, squares[p] ?? 0)
  return Math.max(0, least)
}

/** The root mean square misfit of the point that an explanation fits best. */
export function leastRmsK({ squares, kept }: Guess): number {
  return kept === 0 ? 0 : Math.sqrt(leastFigure(squares) / kept)
}

/** Every other explanation, from every start. */
export function othersOf(
  misfits: Misfits,
  sensors: readonly string[],
  lifting: readonly Lifting[],
): readonly Guess[] {
  const last_s = Math.max(0, ...misfits.readings.map(({ at_s }) => at_s))
  const starts = Array.from({ length: Math.ceil(last_s / START_EVERY_S) }, (_, i) => i * START_EVERY_S)
  return [
    ...lifting.flatMap((one) => starts.flatMap((start_s) => liftedFrom(misfits, one, start_s))),
    ...sensors.flatMap((sensor) => offFrom(misfits, sensor, starts)),
  ]
}

/** (r - s d)^2 summed is r^2 - 2 s r d + s^2 d^2: one pass for every severity. */
function liftedFrom(misfits: Misfits, { pad, drops_K }: Lifting, start_s: number): readonly Guess[] {
  const { readings, squares } = misfits
  const clock_s = Float64Array.from(drops_K[0] ?? [], (_, k) => k * LIFT_EVERY_S)
  const drop_K = readings.map(({ at_s, column }) => {
    const drops = drops_K[column]
    return drops === undefined ? 0 : curveAt(clock_s, drops, Math.max(at_s - start_s, 0))
  })
  const taken = along(misfits, drop_K)
  const own = drop_K.reduce((sum, K) => sum + K * K, 0)
  return SEVERITIES.map((severity) => {
    const left = squares.slice()
    for (let p = 0; p < left.length; p += 1)
      left[p] = (left[p] ?? 0) - 2 * severity * (taken[p] ?? 0) + severity * severity * own
    const cost = leastOf(left) + PAD_PRICE
    return { looks_like: 'pad_lifting', names: pad, cost, squares: left, kept: readings.length }
  })
}

function offFrom(misfits: Misfits, sensor: string, starts_s: readonly number[]): readonly Guess[] {
  const { readings, squares } = misfits
  const fallen = squaresFrom(misfits, sensor, starts_s).filter(({ count }) => count >= FEWEST_OFF)
  return fallen.reverse().map((gone): Guess => {
    const left = squares.slice()
    add(left, -1, gone.squares)
    const kept = readings.length - gone.count
    const cost = (kept === 0 ? 0 : leastOf(left)) + OFF_PRICE + OFF_READING_PRICE * gone.count
    return { looks_like: 'sensor_off', names: sensor, cost, squares: left, kept }
  })
}
