// Rivets position by position: one picked, the main key is its next state, marks beside it; map and list agree.
import type { JSX } from 'preact'
import type { TallyAsk } from '../../core/method.ts'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { mapWords } from '../words/en_map.ts'
import { paths } from './router.ts'
import { TallyPage } from './tally_page.tsx'

type TallyProps = { card: Card; place: StepPlace; view: AskView; ask: TallyAsk; onDone: () => void }

export function TallyScreen({ card, place, ask, onDone }: TallyProps): JSX.Element | null {
  return (
    <TallyPage
      card={card}
      place={place}
      group={ask.group}
      back={paths.step(card.job, place.method.id, place.step.id)}
      title={place.step.title}
      doneWord={mapWords.back}
      onDone={onDone}
    />
  )
}

/** The map of the whole job, from wherever a lost piece is shown: marks, photos, what was found. */
export function WholeMap({ card, onDone }: { card: Card; onDone: () => void }): JSX.Element | null {
  return (
    <TallyPage
      card={card}
      place={undefined}
      group=""
      back={paths.card(card.job)}
      title={mapWords.title}
      doneWord={mapWords.backToCard}
      onDone={onDone}
    />
  )
}
