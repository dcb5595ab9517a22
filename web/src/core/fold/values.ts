/** How a shown value stands against its ask: inside, or with the code of what is wrong with it. */
import type { Entry, StepReadingBody } from '../entries.ts'
import type { Ask, ReadingAsk } from '../method.ts'
import type { FindingCode } from '../state.ts'
import { type Ground, stepRegister } from './ground.ts'
import type { PinnedStep } from './revisions.ts'
import { isStale } from './stale.ts'

/** What is wrong with a shown value; undefined for nothing. */
export function valueFault(
  ground: Ground,
  one: PinnedStep,
  ask: Ask,
  answer: Entry,
): FindingCode | undefined {
  if (ask.kind === 'reading') return readingFault(ground, ask, answer)
  if (isStop(ask, answer)) return 'stop_option'
  if (ask.kind === 'compute' && isStale(ground, one, ask, answer)) return 'stale_result'
  return undefined
}

/**
 * Limits hold for the value, or for what is left of it after the earlier one that it is held against. A value in
 * another unit or scale cannot be compared and counts as outside; an earlier one in another, or missing at that
 * point, leaves nothing to compare with.
 */
function readingFault(ground: Ground, ask: ReadingAsk, answer: Entry): FindingCode | undefined {
  const body = stepReading(answer)
  if (body === undefined) return undefined
  if (!isInScale(body, ask)) return 'outside_limits'
  if (ask.against === undefined) return outsideIf(!isWithin(body.value, ask))
  const { method, step, ask: earlierAsk } = ask.against
  const at = { method, step, ask: earlierAsk, point: body.point }
  const earlier = stepReading(stepRegister(ground, 'reading', at)?.answer)
  if (earlier === undefined || !isInScale(earlier, ask)) return 'nothing_to_compare'
  return outsideIf(!isWithin(body.value - earlier.value, ask))
}

function outsideIf(outside: boolean): FindingCode | undefined {
  return outside ? 'outside_limits' : undefined
}

function stepReading(entry: Entry | undefined): StepReadingBody | undefined {
  return entry?.kind === 'reading' && !('run' in entry.body) ? entry.body : undefined
}

function isInScale(body: StepReadingBody, ask: ReadingAsk): boolean {
  return body.unit === ask.unit && body.decimals === ask.decimals
}

/** Limits are inclusive; a missing one is no limit on that side. */
function isWithin(value: number, ask: ReadingAsk): boolean {
  return (ask.min === undefined || value >= ask.min) && (ask.max === undefined || value <= ask.max)
}

function isStop(ask: Ask, choice: Entry): boolean {
  if (ask.kind !== 'choice' || choice.kind !== 'choice') return false
  return ask.options.some((option) => option.id === choice.body.option && option.stop)
}
