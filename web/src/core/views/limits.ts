/** A value against the limits and the plausible range of its ask. */
import type { ReadingAsk } from '../method.ts'

export type Verdict =
  | { readonly is: 'no_limits' | 'inside' }
  | { readonly is: 'below' | 'above' | 'over_minimum' | 'under_maximum'; readonly by: number }

/** A value against the limits of its ask, all scaled integers; far above a minimum alone is no news. */
export function verdictOf(ask: Pick<ReadingAsk, 'min' | 'max'>, value: number): Verdict {
  const { min, max } = ask
  if (min !== undefined && value < min) return { is: 'below', by: min - value }
  if (max !== undefined && value > max) return { is: 'above', by: value - max }
  if (min === undefined && max === undefined) return { is: 'no_limits' }
  if (min !== undefined && max !== undefined && value - min <= max - value) {
    return { is: 'over_minimum', by: value - min }
  }
  return max === undefined ? { is: 'inside' } : { is: 'under_maximum', by: max - value }
}

export function isOutside(verdict: Verdict): boolean {
  return verdict.is === 'below' || verdict.is === 'above'
}

export function isImplausible(ask: ReadingAsk, value: number): boolean {
  return ask.plausible !== undefined && (value < ask.plausible[0] || value > ask.plausible[1])
}
