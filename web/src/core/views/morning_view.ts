/** Standing conditions through the days: which were looked at today, and which are asked this morning. */
import type { ConditionDoc } from '../method.ts'
import { bodyOf, type Card, type Known, knownOf, type StepPlace } from './card.ts'

export type Standing = {
  readonly doc: ConditionDoc
  readonly on: boolean
  /** It was on by its steps, and somebody saw that it is not. */
  readonly gone: boolean
  /** Who saw it last: the look of a morning, or the step that set it. */
  readonly seen: Known | undefined
  /** The step that sets it: where the words about it belong. */
  readonly setBy: StepPlace | undefined
}

export function standingsOf(card: Card): readonly Standing[] {
  const docs = new Map(card.steps.flatMap((place) => place.method.conditions.map((one) => [one.id, one])))
  return card.state.conditions.flatMap((state) => {
    const doc = docs.get(state.id)
    if (doc === undefined) return []
    const asked = knownOf(card, state.asked)
    const seen = [asked, ...state.by.map((hash) => knownOf(card, hash))].filter((one) => one !== undefined)
    const setBy = card.steps
      .filter((place) => place.step.sets.includes(doc.id) && place.state.done === 'done')
      .at(-1)
    const gone = bodyOf(card, state.asked, 'condition')?.holds === false
    return [{ doc, on: state.on, gone, seen: latest(seen), setBy }]
  })
}

function latest(known: readonly Known[]): Known | undefined {
  return known.reduce<Known | undefined>(
    (last, one) => (last === undefined || one.entry.at_ms > last.entry.at_ms ? one : last),
    undefined,
  )
}

/** Conditions that hold and were last looked at before this local day: each is asked once a morning. */
export function askedThisMorning(card: Card, midnight_ms: number): readonly Standing[] {
  return standingsOf(card).filter(
    ({ doc, on, seen }) =>
      doc.asked_each_morning && on && seen !== undefined && seen.entry.at_ms < midnight_ms,
  )
}

/** The local midnight that began this day. */
export function midnightBefore(now_ms: number): number {
  return new Date(now_ms).setHours(0, 0, 0, 0)
}
