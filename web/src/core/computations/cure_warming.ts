/**
 * What warming a cure would save: minutes to handling cure with heating up and cooling down counted.
 *
 * By the computation alone: what the sheet says at that heat stands above it. Told only where no run has warmed the
 * joint yet, there is something left, and the heat asked about is over the present temperature and the sheet's minimum.
 */
import { exact, left, numberOf } from './figures.ts'
import { find, type Question, quantity } from './question.ts'
import type { RateLaw } from './rate_law.ts'
import { type Answer, line, Refusal } from './shapes.ts'

/** How the cure stands unwarmed: minutes needed and reached at the sheet's temperature, minutes left. */
export type Cold = {
  readonly needed_min: number
  readonly reached_min: number
  readonly left_min: number
  readonly now_C: number
  readonly minimum_C: number
}
const NOTHING: Pick<Answer, 'values' | 'lines'> = { values: [], lines: [] }

/** With `warm_to`, `heating` and `cooling`: minutes left if warmed, and those saved; else nothing. */
export function warmingOf(asked: Question, law: RateLaw, cold: Cold): Pick<Answer, 'values' | 'lines'> {
  const warmTo = find(asked, 'warm_to', 'quantity')
  if (warmTo === undefined || cold.left_min === 0) return NOTHING
  const warm_C = numberOf(warmTo)
  if (warm_C <= Math.max(cold.now_C, cold.minimum_C)) return NOTHING
  const warmLeft = exact('warm_left', left(warmedFor(warm_C, asked, law, cold)), 'min')
  const saves = exact('warm_saves', cold.left_min - warmLeft.value, 'min')
  const to = exact('warm_to', warmTo.value, warmTo.unit, warmTo.decimals)
  if (saves.value <= 0)
    return { values: [warmLeft], lines: [line('warming_saves_nothing', 'note', [], [to])] }
  return { values: [warmLeft, saves], lines: [line('warming_saves', 'note', [], [to, warmLeft, saves])] }
}

/** Up, hold, and down to the present temperature again, minutes; of the ramps what is over the minimum counts. */
function warmedFor(warm_C: number, asked: Question, law: RateLaw, cold: Cold): number {
  const rise = warm_C - cold.now_C
  const ramps = rise / rateOf(asked, 'heating') + rise / rateOf(asked, 'cooling')
  const from_C = Math.max(cold.now_C, cold.minimum_C)
  const inRamps = ramps * ((warm_C - from_C) / rise) * law.meanRate(from_C, warm_C)
  const wanted = Math.max(0, cold.needed_min - cold.reached_min)
  return (wanted > 0 ? ramps : 0) + Math.max(0, wanted - inRamps) / law.rate(warm_C)
}

function rateOf(asked: Question, name: string): number {
  const rate = quantity(asked, name)
  if (rate.value <= 0) throw new Refusal(name, 'not_above_zero')
  return numberOf(rate)
}
