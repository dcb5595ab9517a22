// What a hole allows, in words: the decision with its figures, or why the maker is asked.
import type { HoleView } from '../../core/views/holes_view.ts'
import { holeWords } from '../words/en_holes.ts'
import { quantity } from '../words/format.ts'

export function decisionWords({ word, found, isDamaged }: HoleView): string {
  if (isDamaged) return `${holeWords.is.to_maker}: ${holeWords.damaged}`
  const decision = found?.decision
  const why = holeWords.why[decision?.why ?? '']
  if (word === 'to_maker') return why === undefined ? holeWords.is[word] : `${holeWords.is[word]}: ${why}`
  const said =
    word === 'larger' && decision?.rivet !== undefined
      ? holeWords.largerTo(tenths(decision.rivet))
      : holeWords.is[word]
  return decision?.drillTo === undefined ? said : holeWords.drillTo(said, hundredths(decision.drillTo))
}

export function hundredths(mm: number): string {
  return quantity(Math.round(mm * 100), 2, 'mm')
}

export function tenths(mm: number): string {
  return quantity(Math.round(mm * 10), 1, 'mm')
}
