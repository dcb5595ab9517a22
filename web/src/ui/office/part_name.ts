// How a job is called: its part and side, and its order number, smaller where it is long.
import { w } from '../words/en.ts'
import { capital } from '../words/format.ts'

/** Said once where the part's own words name the side. */
export function partName({
  part,
  side,
}: {
  readonly part: string
  readonly side: 'left' | 'right' | 'none'
}): string {
  const word = w.common.side[side]
  if (part === '' || word === '') return capital(part || word)
  return capital(part.toLowerCase().split(/\W/).includes(word) ? part : `${part}, ${word}`)
}

const LONG_ORDER = 4

export function orderClass(order: string): string {
  return order.length > LONG_ORDER ? 'o-order o-order-long num' : 'o-order num'
}
