/**
 * How far a cure is, and when it may be called done: the slowest of computation, data sheet and blob.
 *
 * Without a blob the answer only tells how far it is. With a blob and the least it must have it judges handling cure;
 * with a blob alone, full cure. Neither is shorter than the sheet says, but where the method's own warm hold was
 * soaked in full for handling cure. Under the sheet's minimum, where the method gives it, time counts nothing; minutes
 * left are then those at it. Model "cure-verdict-1".
 */
import { type Cured, curedBy, type FlangeReading } from './cure_log.ts'
import { warmingOf } from './cure_warming.ts'
import { exact, figure, isOver, left, MS_PER_MIN, numberOf, reached, tenTo } from './figures.ts'
import type { Quantity, Run } from './inputs.ts'
import { lotLines } from './lots.ts'
import { find, type Question, quantity, want } from './question.ts'
import { arrheniusOf, type RateLaw } from './rate_law.ts'
import { type Answer, type Line, line, Refusal, type Verdict } from './shapes.ts'

/** What one stage still needs, minutes: by the computed cure, by the sheet. */
type Stand = { readonly computed_min: number; readonly sheet_min: number; readonly share: number }
const MIN_PER_H = 60

export function cureProgress(asked: Question): Answer {
  const coldest = quantity(asked, 'coldest')
  const law = lawOf(asked)
  const elapsed = ((asked.asked_at_ms ?? 0) - want(asked, 'started', 'moment').at_ms) / MS_PER_MIN
  if (elapsed < 0) throw new Refusal('started', 'later_than_now')
  const runs = find(asked, 'run', 'runs')?.runs ?? []
  const flange = flangeOf(asked, coldest)
  const lowest = Math.min(coldest.value, ...(asked.log ?? []).map(([, value]) => value))
  const minimum = find(asked, 'minimum_cure', 'quantity')
  const minimum_C = minimum === undefined ? Number.NEGATIVE_INFINITY : numberOf(minimum)
  const cured = curedBy(elapsed, flange, law, runs, minimum_C)
  const newest_C = flange.at(-1)?.[1] ?? numberOf(coldest)
  const now_C = cured.run === undefined ? newest_C : lowest / tenTo(coldest.decimals)
  const rate = law.rate(Math.max(now_C, minimum_C))
  const standsStillUnder = now_C < minimum_C ? minimum : undefined
  const handling = standOf(asked, 'handling_time', elapsed, cured, rate, isSoaked(runs))
  const full = standOf(asked, 'full_time', elapsed, cured, rate, false)
  const { verdict, lines } = judge(asked, handling, full)
  const unwarmed = {
    needed_min: numberOf(quantity(asked, 'handling_time')) * MIN_PER_H,
    reached_min: cured.equivalent_min,
    left_min: leftOf(handling),
    now_C,
    minimum_C,
  }
  const warm = cured.run === undefined ? warmingOf(asked, law, unwarmed) : { values: [], lines: [] }
  return {
    model: 'cure-verdict-1',
    values: [
      exact('elapsed', reached(elapsed), 'min'),
      exact('equivalent', reached(cured.equivalent_min), 'min'),
      figure('speed', standsStillUnder === undefined ? rate * 100 : 0, '%', 0),
      exact('handling_share', reached(Math.min(1, handling.share) * 100), '%'),
      exact('handling_left', leftOf(handling), 'min'),
      exact('full_share', reached(Math.min(1, full.share) * 100), '%'),
      exact('full_left', leftOf(full), 'min'),
      exact('coldest', lowest, 'C', coldest.decimals),
      ...warm.values,
    ],
    verdict,
    lines: [
      ...lines,
      ...coldLines(cured, standsStillUnder),
      ...warm.lines,
      ...runLines(cured, runs),
      ...lotLines(asked, 'adhesive'),
    ],
    sources: ['arrhenius', 'slowest'],
  }
}

/** The shown reading alone where the question brings no log. */
function flangeOf(asked: Question, coldest: Quantity): readonly FlangeReading[] {
  const started_ms = want(asked, 'started', 'moment').at_ms
  const log = asked.log?.length ? asked.log : [[started_ms, coldest.value] as const]
  return log.map(([at_ms, value]) => [(at_ms - started_ms) / MS_PER_MIN, value / tenTo(coldest.decimals)])
}

function lawOf(asked: Question): RateLaw {
  const energy = numberOf(quantity(asked, 'activation_energy'))
  if (energy <= 0) throw new Refusal('activation_energy', 'not_above_zero')
  return arrheniusOf(energy * 1000, numberOf(quantity(asked, 'sheet_temperature')))
}

function standOf(
  asked: Question,
  name: string,
  elapsed: number,
  { equivalent_min }: Cured,
  rate: number,
  soaked: boolean,
): Stand {
  const hours = quantity(asked, name)
  if (hours.value <= 0) throw new Refusal(name, 'not_above_zero')
  const needed = numberOf(hours) * MIN_PER_H
  return {
    computed_min: Math.max(0, needed - equivalent_min) / rate,
    sheet_min: soaked ? 0 : Math.max(0, needed - elapsed),
    share: equivalent_min / needed,
  }
}

function isSoaked(runs: readonly Run[]): boolean {
  return runs.some((run) => run.soak_s > 0 && run.soak_ms >= run.soak_s * 1000)
}

function leftOf({ computed_min, sheet_min }: Stand): number {
  return left(Math.max(computed_min, sheet_min))
}

type Judged = { readonly verdict: Verdict; readonly lines: readonly Line[] }

function judge(asked: Question, handling: Stand, full: Stand): Judged {
  const [blob, least] = [find(asked, 'blob', 'quantity'), find(asked, 'blob_least', 'quantity')]
  if (blob === undefined) return { verdict: 'none', lines: slowest(handling) }
  if (least === undefined) return byLines(waits(full))
  const both = [
    exact('blob', blob.value, blob.unit, blob.decimals),
    exact('least', least.value, least.unit, least.decimals),
  ]
  return byLines([...waits(handling), ...(isOver(least, blob) ? [line('waits_blob', 'stop', [], both)] : [])])
}

function byLines(lines: readonly Line[]): Judged {
  return { verdict: lines.length > 0 ? 'outside' : 'inside', lines }
}

function waits({ computed_min, sheet_min }: Stand): readonly Line[] {
  const wait = (code: string, minutes: number) =>
    left(minutes) === 0 ? [] : [line(code, 'stop', [], [exact('left', left(minutes), 'min')])]
  return [...wait('waits_computed', computed_min), ...wait('waits_sheet', sheet_min)]
}

function slowest(stand: Stand): readonly Line[] {
  if (leftOf(stand) === 0) return []
  const bySheet = left(stand.sheet_min) >= left(stand.computed_min)
  return [line(bySheet ? 'slowest_sheet' : 'slowest_computed')]
}

function coldLines({ cold_min }: Cured, under: Quantity | undefined): readonly Line[] {
  const cold = left(cold_min)
  return [
    ...(under === undefined
      ? []
      : [line('stands_still', 'note', [], [exact('minimum', under.value, under.unit, under.decimals)])]),
    ...(cold > 0 ? [line('cold_counts_nothing', 'note', [], [exact('cold', cold, 'min')])] : []),
  ]
}

function runLines({ run }: Cured, runs: readonly Run[]): readonly Line[] {
  if (run === undefined) return [line(runs.length > 0 ? 'run_not_read' : 'from_coldest')]
  const gaps = left(run.unmeasured_min)
  return [
    line('run_counted', 'note', [], [exact('span', reached(run.span_min), 'min')]),
    ...(gaps > 0 ? [line('run_gaps', 'note', [], [exact('gaps', gaps, 'min')])] : []),
  ]
}
