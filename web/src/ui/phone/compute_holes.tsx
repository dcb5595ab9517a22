// Under the decision about holes: the edge that is still to be read, and all holes on the map.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { holesOf, roomAskOf } from '../../core/views/holes_view.ts'
import { KeyLink } from '../parts/key.tsx'
import { holeWords } from '../words/en_holes.ts'
import { paths } from './router.ts'

export function HoleKeys({ card }: { card: Card }): JSX.Element {
  const edge = roomAskOf(card)
  const wanted = edge === undefined ? [] : holesOf(card).filter(({ wantsRoom }) => wantsRoom)
  return (
    <div class="keys">
      {edge &&
        wanted.map(({ position }) => (
          <KeyLink
            key={position}
            href={paths.ask(
              card.job,
              edge.place.method.id,
              edge.place.step.id,
              edge.ask,
              position.toLowerCase(),
            )}
          >
            {holeWords.readEdge(position)}
          </KeyLink>
        ))}
      <KeyLink href={paths.map(card.job)}>{holeWords.onTheMap}</KeyLink>
    </div>
  )
}
