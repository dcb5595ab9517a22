// A reading outside its limits is recorded together with the deviation that says why.
import type { JSX } from 'preact'
import type { Entry } from '../../core/entries.ts'
import type { ReadingAsk } from '../../core/method.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { deviation, reading, refOf } from '../../core/views/drafts.ts'
import type { Judged } from '../../core/views/reading_view.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { RecordKey, useWords } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { pageWords } from '../words/en_pages.ts'
import type { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { verdictLine } from './reading_verdict.tsx'
import { paths } from './router.ts'

type RecordReading = {
  card: Card
  place: StepPlace
  ask: ReadingAsk
  point: string
  amount: number
  reason: string | undefined
  record: ReturnType<typeof usePhone>['record']
}

/** With a reason the reading goes with the deviation that names its hash, in one transaction. */
export async function recordReading({ card, place, ask, point, amount, reason, record }: RecordReading) {
  const draft = reading(card, place, ask, point, amount)
  if (reason === undefined) return record(card.job, [draft])
  return record(card.job, [draft, (made) => deviation(refOf(place), reason, hashesOf(made), false)])
}

function hashesOf(made: readonly Entry[]): readonly string[] {
  return made.map((entry) => entry.hash)
}

type OutsideProps = {
  card: Card
  place: StepPlace
  ask: ReadingAsk
  say: string
  judged: Judged
  head: string
  onBack: () => void
  onReason: (reason: string) => Promise<void>
}

export function OutsideReason(props: OutsideProps): JSX.Element {
  const { card, place, ask, say, judged, head, onBack, onReason } = props
  const input = useWords({ label: pageWords.deviationWhat })
  return (
    <Frame
      act={`${place.step.id}/${ask.id}/outside`}
      card={card}
      place={place}
      back={paths.step(card.job, place.method.id, place.step.id)}
      foot={
        <>
          <RecordKey input={input} onWords={(words) => void onReason(words)}>
            {askWords.reading.record(say)}
          </RecordKey>
          <Key onPress={onBack}>{w.common.back}</Key>
        </>
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {askWords.reading.outside}
        </h1>
        <p>
          {head}: <strong>{say}</strong>
        </p>
        <StateWord state="finding" word={verdictLine(ask, say, judged)} />
        <p>{pageWords.deviationFor(w.card.deviation)}</p>
        {input.field}
      </Leaf>
    </Frame>
  )
}
