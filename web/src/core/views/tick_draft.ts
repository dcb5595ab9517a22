/** A tick as a tap asks to have it recorded: what a first act needs, apart from all other drafts. */
import type { Draft, StepRef } from '../entries.ts'
import type { RegisterState } from '../state.ts'
import { type Card, registerOf, type StepPlace } from './card.ts'

export function refOf(place: StepPlace): StepRef {
  return { method: place.method.id, digest: place.digest, step: place.step.id }
}

/** The values that stand there, which a new one replaces. */
export function overOf(
  card: Card,
  place: StepPlace,
  kind: RegisterState['kind'],
  ask: string,
  point = '',
): readonly string[] {
  return [...(registerOf(card, place, kind, ask, point)?.standing ?? [])].sort()
}

/** A tick of the step (empty ask) or of one of its checks. */
export function tick(card: Card, place: StepPlace, ask: string): Draft {
  const over = overOf(card, place, 'tick', ask)
  return { kind: 'tick', body: { ...refOf(place), ask, value: 'done', reason: '', over } }
}
