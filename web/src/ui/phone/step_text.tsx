// What a step says: stage, title, caution, instruction, tools.
import type { JSX } from 'preact'
import type { StepPlace } from '../../core/views/card.ts'
import { Caution, Facts } from '../parts/leaf.tsx'
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
