/**
 * Equivalent time of a joint since its first gram: a run's log where one ran, flange readings beside.
 *
 * The coldest bond sensor at each moment counts. Minutes of a run that not every bond sensor measured count nothing;
 * minutes before and after it count at the coldest flange temperature that was read. Without a run the flange's
 * readings are a log of their own: between two of them the colder one counts, before the first it was as the first
 * says, after the last it stays so. Time under the sheet's minimum counts nothing and is told.
 */
import { MS_PER_MIN, tenTo } from './figures.ts'
import type { Run, SensorLog } from './inputs.ts'
import type { RateLaw } from './rate_law.ts'
import { Refusal } from './shapes.ts'

type Stretch = {
  readonly start_min: number
  readonly end_min: number
  readonly start_C: number
  readonly end_C: number
}
/** What runs' logs give: equivalent minutes, those under the minimum, their span, and how much nobody measured. */
export type Logged = {
  readonly equivalent_min: number
  readonly cold_min: number
  readonly span_min: number
  readonly unmeasured_min: number
}
export type FlangeReading = readonly [since_first_gram_min: number, at_C: number]
export type Cured = {
  readonly equivalent_min: number
  readonly cold_min: number
  readonly run: Logged | undefined
}

const FEWEST = 2
const S_PER_MIN = 60

/** `flange` is in order, one reading at least. */
export function curedBy(
  elapsed_min: number,
  flange: readonly FlangeReading[],
  law: RateLaw,
  runs: readonly Run[],
  minimum_C = Number.NEGATIVE_INFINITY,
): Cured {
  const logged = runs.flatMap((run) => loggedOf(run, law, minimum_C) ?? [])
  if (logged.length === 0)
    return { ...countedOf(staysOf(elapsed_min, flange), law, minimum_C), run: undefined }
  const coldest_C = Math.min(...flange.map(([, at_C]) => at_C))
  const sum = (of: keyof Logged) => logged.reduce((all, one) => all + one[of], 0)
  const run = {
    equivalent_min: sum('equivalent_min'),
    cold_min: sum('cold_min'),
    span_min: sum('span_min'),
    unmeasured_min: sum('unmeasured_min'),
  }
  const stay = [[Math.max(0, elapsed_min - run.span_min), coldest_C]] as const
  const beside = countedOf(stay, law, minimum_C)
  return {
    equivalent_min: run.equivalent_min + beside.equivalent_min,
    cold_min: run.cold_min + beside.cold_min,
    run,
  }
}

type Stay = readonly [minutes: number, at_C: number]

/** Equivalent minutes, and the minutes that count nothing. */
function countedOf(stays: readonly Stay[], law: RateLaw, minimum_C: number): Omit<Cured, 'run'> {
  const sum = (of: readonly Stay[], speed: (at_C: number) => number) =>
    of.reduce((all, [minutes, at_C]) => all + minutes * speed(at_C), 0)
  const isWarm = ([, at_C]: Stay) => at_C >= minimum_C
  return {
    equivalent_min: sum(stays.filter(isWarm), (at_C) => law.rate(at_C)),
    cold_min: sum(
      stays.filter((one) => !isWarm(one)),
      () => 1,
    ),
  }
}

/** Without a gap from the first gram until now. */
function staysOf(elapsed_min: number, flange: readonly FlangeReading[]): readonly Stay[] {
  const [first = 0, last = 0] = [flange[0]?.[1], flange.at(-1)?.[1]]
  const read = flange.map(([at, at_C]): FlangeReading => [Math.max(0, at), at_C])
  const known: readonly FlangeReading[] = [[0, first], ...read, [elapsed_min, last]]
  return known.slice(1).flatMap(([until, b], place): readonly Stay[] => {
    const [from, a] = known[place] ?? [until, b]
    const end = Math.min(until, elapsed_min)
    return end > from ? [[end - from, Math.min(a, b)]] : []
  })
}

function loggedOf(run: Run, law: RateLaw, minimum_C: number): Logged | undefined {
  const logs = run.sensors.filter((one) => one.of === 'bond')
  if (logs.length === 0 || logs.some((one) => one.points.length < FEWEST)) return undefined
  const envelope = coldestOf(logs.map((one) => stretchesOf(one, run)))
  const first = Math.max(...logs.map((one) => one.points[0]?.[0] ?? 0)) / MS_PER_MIN
  const last = Math.min(...logs.map((one) => one.points.at(-1)?.[0] ?? 0)) / MS_PER_MIN
  const span_min = Math.max(0, last - first)
  const measured = envelope.reduce((sum, one) => sum + minutes(one), 0)
  const warm = envelope.flatMap((one) => warmPart(one, minimum_C))
  const equivalent_min = warm.reduce(
    (sum, one) => sum + minutes(one) * law.meanRate(one.start_C, one.end_C),
    0,
  )
  const cold_min = Math.max(0, measured - warm.reduce((sum, one) => sum + minutes(one), 0))
  return { equivalent_min, cold_min, span_min, unmeasured_min: Math.max(0, span_min - measured) }
}

/** The straight pieces between readings that are no gaps; two at one minute are a step. */
function stretchesOf(log: SensorLog, run: Run): readonly Stretch[] {
  return log.points.slice(1).flatMap(([ms, value], place) => {
    const [before_ms, before] = log.points[place] ?? [ms, value]
    if (ms < before_ms) throw new Refusal('run', 'minutes_back')
    const piece = {
      start_min: before_ms / MS_PER_MIN,
      end_min: ms / MS_PER_MIN,
      start_C: before / tenTo(run.decimals),
      end_C: value / tenTo(run.decimals),
    }
    const isGap = steps(minutes(piece)) > steps(run.gap_max_s / S_PER_MIN)
    return minutes(piece) > 0 && !isGap ? [piece] : []
  })
}

/** In whole ten-thousandths: 18.6 - 3.6 is 15 minutes, and no gap where 15 are allowed. */
function steps(of_min: number): number {
  return Math.round(of_min * 10_000)
}

/** The part of a stretch at or above a temperature. */
function warmPart(one: Stretch, minimum_C: number): readonly Stretch[] {
  if (Math.min(one.start_C, one.end_C) >= minimum_C) return [one]
  if (Math.max(one.start_C, one.end_C) < minimum_C) return []
  const at = one.start_min + (minutes(one) * (minimum_C - one.start_C)) / (one.end_C - one.start_C)
  return one.start_C >= minimum_C
    ? [{ ...one, end_min: at, end_C: minimum_C }]
    : [{ ...one, start_min: at, start_C: minimum_C }]
}

/** The lower envelope of several logs, straight piece by straight piece, where all of them measured. */
function coldestOf(logs: readonly (readonly Stretch[])[]): readonly Stretch[] {
  const edges = [...new Set(logs.flat().flatMap((one) => [one.start_min, one.end_min]))].sort((a, b) => a - b)
  return edges.slice(1).flatMap((end, place) => {
    const start = edges[place] ?? end
    const lines = logs.flatMap((log) => {
      const found = log.find((one) => one.start_min <= start && one.end_min >= end)
      return found === undefined ? [] : [between(found, start, end)]
    })
    return lines.length === logs.length ? lowest(lines, start, end) : []
  })
}

function lowest(lines: readonly Stretch[], start: number, end: number): readonly Stretch[] {
  const crossings = lines.flatMap((a, i) => lines.slice(i + 1).flatMap((b) => crossing(a, b)))
  const cuts = [start, ...new Set(crossings.sort((a, b) => a - b)), end]
  return cuts.slice(1).map((to, place) => {
    const from = cuts[place] ?? to
    const coldest = lines.reduce((low, one) =>
      atMinute(one, (from + to) / 2) < atMinute(low, (from + to) / 2) ? one : low,
    )
    return between(coldest, from, to)
  })
}

function crossing(a: Stretch, b: Stretch): readonly number[] {
  const [atStart, atEnd] = [a.start_C - b.start_C, a.end_C - b.end_C]
  return atStart * atEnd >= 0 ? [] : [a.start_min + (minutes(a) * atStart) / (atStart - atEnd)]
}

function between(one: Stretch, start_min: number, end_min: number): Stretch {
  return { start_min, end_min, start_C: atMinute(one, start_min), end_C: atMinute(one, end_min) }
}

function atMinute(one: Stretch, minute: number): number {
  return one.start_C + ((minute - one.start_min) / minutes(one)) * (one.end_C - one.start_C)
}

function minutes(one: Stretch): number {
  return one.end_min - one.start_min
}
