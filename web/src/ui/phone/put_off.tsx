// A step that was put off: by whom and why, and the way back to it.
import type { JSX } from 'preact'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { strike } from '../../core/views/drafts.ts'
import { mayStrike } from '../../core/views/records_view.ts'
import { Key } from '../parts/key.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { stepWords } from '../words/en_step.ts'
import { clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import './step_parts.css'

export function PutOff({ card, place }: { card: Card; place: StepPlace }): JSX.Element | null {
  const { record, me } = usePhone()
  const put = place.state.later.flatMap((hash) => card.entries.get(hash)?.entry ?? [])
  if (put.length === 0 || place.state.done !== '') return null
  const own = put.every((entry) => mayStrike(entry, me()))
  const again = () =>
    record(
      card.job,
      put.map((entry) => strike(entry.hash, stepWords.later.reason)),
    )
  return (
    <section class="put-off">
      {put.map((entry) => (
        <div key={entry.hash}>
          <StateWord
            state="later"
            word={stepWords.later.state(w.common.by(personName(card, entry.by), clockTime(entry.at_ms)))}
          />
          {entry.kind === 'later' && <p>{entry.body.reason}</p>}
        </div>
      ))}
      {own ? (
        <Key onPress={() => void again()}>{stepWords.later.again}</Key>
      ) : (
        <p class="label soft">{stepWords.later.othersAgain}</p>
      )}
    </section>
  )
}
