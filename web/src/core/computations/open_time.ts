/**
 * Open time at the warmest of air, flange and cartridges: half as long per 10 K warmer, never over the sheet.
 *
 * A changed mixer is no input: it does not restart the clock. Model "open-time-1".
 */
import type { ResultValue } from '../entries.ts'
import { exact, finest, isOver, MS_PER_MIN, numberOf, reached, type Scaled, stepsOf } from './figures.ts'
import { find, type Question, quantity } from './question.ts'
import { type Answer, type Line, line, Refusal, type Verdict } from './shapes.ts'

const READ = ['air', 'flange', 'adhesive'] as const
const PER_10_K = 2

export function openTime(asked: Question): Answer {
  const warmest = warmestOf(asked)
  const [time, at] = [quantity(asked, 'sheet_time'), quantity(asked, 'sheet_temperature')]
  if (time.value <= 0) throw new Refusal('sheet_time', 'not_above_zero')
  const minutes = openMinutes(numberOf(time), numberOf(at), numberOf(warmest))
  const temperature = exact('temperature', warmest.value, 'C', warmest.decimals)
  const judged = judge(asked, minutes)
  return {
    model: 'open-time-1',
    values: [exact('open_time', reached(minutes), 'min'), temperature, ...judged.values],
    verdict: judged.verdict,
    lines: [
      line(isOver(warmest, at) ? 'shortened' : 'by_sheet', 'note', [], [temperature]),
      ...judged.lines,
      line('mixer_restarts_nothing'),
    ],
    sources: ['per_10_kelvin'],
  }
}

/** Minutes at a constant temperature, by the sheet's one row. */
export function openMinutes(sheet_min: number, sheet_C: number, at_C: number): number {
  return at_C <= sheet_C ? sheet_min : sheet_min / PER_10_K ** ((at_C - sheet_C) / 10)
}

function warmestOf(asked: Question): Scaled {
  const read = READ.flatMap((name) => find(asked, name, 'quantity') ?? [])
  if (read.length === 0) throw new Refusal('air', 'not_there')
  const decimals = finest(read)
  return { value: Math.max(...read.map((one) => stepsOf(one, decimals))), decimals }
}

type Judged = {
  readonly values: readonly ResultValue[]
  readonly verdict: Verdict
  readonly lines: readonly Line[]
}

function judge(asked: Question, minutes: number): Judged {
  const started = find(asked, 'started', 'moment')
  if (started !== undefined) return running((asked.asked_at_ms ?? 0) - started.at_ms, minutes)
  const rehearsal = find(asked, 'rehearsal', 'quantity')
  if (rehearsal === undefined) return { values: [], verdict: 'none', lines: [] }
  const share = numberOf(quantity(asked, 'share'))
  const allowed = exact('allowed', reached((minutes * share) / 100), 'min')
  if (!isOver(rehearsal, allowed)) return { values: [allowed], verdict: 'inside', lines: [] }
  const took = exact('rehearsal', rehearsal.value, 'min', rehearsal.decimals)
  return {
    values: [allowed],
    verdict: 'outside',
    lines: [line('rehearsal_long', 'stop', [], [took, allowed])],
  }
}

function running(since_ms: number, minutes: number): Judged {
  const used = exact('used', Math.max(0, reached(since_ms / MS_PER_MIN)), 'min')
  const values = [used, exact('left', Math.max(0, reached(minutes - since_ms / MS_PER_MIN)), 'min')]
  if (since_ms <= minutes * MS_PER_MIN) return { values, verdict: 'inside', lines: [] }
  return { values, verdict: 'outside', lines: [line('open_time_over', 'stop', [], [used])] }
}
