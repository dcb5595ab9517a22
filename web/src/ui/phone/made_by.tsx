// Who recorded it and when, and whether a deviation was written with it.
import type { JSX } from 'preact'
import type { Card, Known } from '../../core/views/card.ts'
import { deviationsAbout } from '../../core/views/hold_view.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { stepWords } from '../words/en_step.ts'
import { clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'

export function By({ card, known }: { card: Card; known: Known }): JSX.Element {
  return (
    <span class="soft made-by">
      {w.common.by(personName(card, known.entry.by), clockTime(known.entry.at_ms))}
    </span>
  )
}

/** That a deviation was written with it; its words stand once, in the list where it can be struck. */
export function WithReason({ card, hash }: { card: Card; hash: string }): JSX.Element | null {
  if (deviationsAbout(card, hash).length === 0) return null
  return (
    <small class="made-why">
      <Mark name="deviation" /> {stepWords.value.withReason}
    </small>
  )
}
