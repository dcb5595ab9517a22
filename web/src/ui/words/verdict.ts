// A value against its limits, in words.
import { isOutside, type Verdict } from '../../core/views/limits.ts'
import { askWords } from './en_asks.ts'
import { scaled } from './format.ts'

/** A verdict against limits in words, its distance in the reading's own decimals. */
export function verdictWords(verdict: Verdict, decimals: number): string {
  const words = askWords.reading
  switch (verdict.is) {
    case 'no_limits':
      return words.noLimits
    case 'inside':
      return words.within
    case 'below':
      return words.below(scaled(verdict.by, decimals))
    case 'above':
      return words.above(scaled(verdict.by, decimals))
    case 'over_minimum':
      return words.over(scaled(verdict.by, decimals))
    case 'under_maximum':
      return words.under(scaled(verdict.by, decimals))
  }
}

export function verdictState(verdict: Verdict): 'finding' | 'done' | undefined {
  if (verdict.is === 'no_limits') return undefined
  return isOutside(verdict) ? 'finding' : 'done'
}
