// What a step says: stage, title, caution, instruction, tools, who, and what it waits for.
import type { JSX } from 'preact'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { needsOf } from '../../core/views/statuses.ts'
import { Caution, Facts } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { glued, listed } from '../words/format.ts'

/** A hold point's band names the act itself: then only what belongs under its name is left to say. */
export function StepHead({ place, headed }: { place: StepPlace; headed: boolean }): JSX.Element {
  const { step, stage } = place
  return (
    <>
      {!headed && (
        <div class="near">
          <p class="stage">{w.card.stage(stage.number, stage.title)}</p>
          <h1 class="act" tabIndex={-1}>
            {glued(step.title)}
          </h1>
        </div>
      )}
      {step.caution !== '' && <Caution>{glued(step.caution)}</Caution>}
    </>
  )
}

export function StepBody({ place }: { place: StepPlace }): JSX.Element {
  const { step } = place
  const facts: [string, string][] = []
  if (step.tools.length > 0) facts.push([w.card.tools, listed(step.tools)])
  return (
    <>
      {step.instruction !== '' && <p class="lead">{glued(step.instruction)}</p>}
      {facts.length > 0 && <Facts rows={facts} />}
    </>
  )
}

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

export function needWords(card: Card, place: StepPlace): readonly string[] {
  return needsOf(card, place).map((need) => {
    const other = need.place
    const title = other ? `${w.card.step(other.number)}, ${other.step.title}` : need.id
    return need.moment === '' ? title : w.card.needMoment(title, w.card.moments[need.moment] ?? need.moment)
  })
}
