// A reading that is read only where it is needed: the holes that want it now, and the way to any other.
import type { JSX } from 'preact'
import type { ReadingAsk } from '../../core/method.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { holesOf, roomAskOf } from '../../core/views/holes_view.ts'
import { KeyLink } from '../parts/key.tsx'
import { holeWords } from '../words/en_holes.ts'
import { paths } from './router.ts'

type Props = { card: Card; place: StepPlace; ask: ReadingAsk }

export function WhereNeeded({ card, place, ask }: Props): JSX.Element {
  const here = (point = ''): string => paths.ask(card.job, place.method.id, place.step.id, ask.id, point)
  return (
    <>
      <p class="label soft">{holeWords.onlyWhere}</p>
      <div class="keys">
        {wantedAt(card, place, ask).map((position) => (
          <KeyLink key={position} href={here(position.toLowerCase())}>
            {holeWords.readEdge(position)}
          </KeyLink>
        ))}
        <KeyLink href={here()}>{holeWords.readElsewhere}</KeyLink>
      </div>
    </>
  )
}

/** Positions whose hole goes up a size, the edge there not yet read. */
function wantedAt(card: Card, place: StepPlace, ask: ReadingAsk): readonly string[] {
  const edge = roomAskOf(card)
  if (edge?.place !== place || edge.ask !== ask.id) return []
  return holesOf(card).flatMap(({ position, wantsRoom }) => (wantsRoom ? [position] : []))
}
