// Who recorded it and when, and the deviation that was written with it.
import type { JSX } from 'preact'
import type { Card, Known } from '../../core/views/card.ts'
import { deviationsAbout } from '../../core/views/hold_view.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'

export function By({ card, known }: { card: Card; known: Known }): JSX.Element {
  return (
    <span class="soft made-by">
      {w.common.by(personName(card, known.entry.by), clockTime(known.entry.at_ms))}
    </span>
  )
}

/** The deviation that was written with it. */
export function Reasons({ card, hash }: { card: Card; hash: string }): JSX.Element {
  return (
    <>
      {deviationsAbout(card, hash).map((entry) => (
        <small key={entry.hash} class="made-why">
          <Mark name="deviation" /> {entry.body.text}
        </small>
      ))}
    </>
  )
}
