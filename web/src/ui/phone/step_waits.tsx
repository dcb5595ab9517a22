// What a step waits for, and that it was recorded under another revision.
import type { JSX } from 'preact'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { needsOf } from '../../core/views/needs_view.ts'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { momentWords } from '../words/en_step.ts'
import { listed } from '../words/format.ts'

export function StepNeeds({ card, place }: { card: Card; place: StepPlace }): JSX.Element | null {
  const needs = needWords(card, place)
  if (needs.length === 0 || place.state.done !== '') return null
  return (
    <p>
      <StateWord state="waits" word={`${w.card.needs}: ${listed(needs)}`} />
    </p>
  )
}

/** Recorded under another revision whose step is not the same: kept, but it answers nothing here. */
export function MadeElsewhere({ card, place }: { card: Card; place: StepPlace }): JSX.Element | null {
  const about = card.state.elsewhere.some((hash) => {
    const body = card.entries.get(hash)?.entry.body as { method?: string; step?: string } | undefined
    return body?.method === place.method.id && body.step === place.step.id
  })
  return about ? <p class="in-stop">{w.card.elsewhere}</p> : null
}

function needWords(card: Card, place: StepPlace): readonly string[] {
  return needsOf(card, place).map((need) => {
    const other = need.place
    const title = other ? `${w.card.step(other.number)}, ${other.step.title}` : need.id
    return need.moment === '' ? title : momentWords.at(title, momentWords.names[need.moment] ?? need.moment)
  })
}
