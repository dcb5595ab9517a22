// How a rivet's length is called, and which lengths a result gives.
import type { ResultValue } from '../../core/entries.ts'
import { listed, quantity } from './format.ts'

/** 12 mm though its table counts in tenths, 12.5 mm where it is so. */
export function lengthName(value: number, decimals: number, unit: string): string {
  const one = 10 ** decimals
  return value % one === 0 ? quantity(value / one, 0, unit) : quantity(value, decimals, unit)
}

/** Each length once, found by a row or chosen; '' of a result about no lengths. */
export function lengthsIn(values: readonly ResultValue[]): string {
  const lengths = values.filter(({ name }) => /^(length|chosen)_/.test(name))
  return listed([...new Set(lengths.map(({ value, decimals, unit }) => lengthName(value, decimals, unit)))])
}
