// The part and its side; said once where the part's own words name the side.
import { w } from '../words/en.ts'

export function partName({
  part,
  side,
}: {
  readonly part: string
  readonly side: 'left' | 'right' | 'none'
}): string {
  const word = w.common.side[side]
  if (part === '' || word === '') return part || word
  return part.toLowerCase().split(/\W/).includes(word) ? part : `${part}, ${word}`
}
