/** What a waiting step waits for. */
import type { Card, StepPlace } from './card.ts'

export type Need = { readonly place: StepPlace | undefined; readonly id: string; readonly moment: string }

/** What a waiting step waits for: a step, or a moment of the run begun there. */
export function needsOf(card: Card, place: StepPlace): readonly Need[] {
  return place.state.needs_open.map((need) => {
    const [step = '', moment = ''] = need.split('@')
    const [id = '', method = place.method.id] = step.split('/').reverse()
    const other = card.steps.find((one) => one.method.id === method && one.step.id === id)
    return { place: other, id, moment }
  })
}
