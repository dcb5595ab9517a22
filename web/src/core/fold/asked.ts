/** Which asks of a step are asked: one with a `when` only while that choice of its step shows that option. */
import type { Ask } from '../method.ts'
import { type Ground, stepRegister } from './ground.ts'
import { askOf, type PinnedStep } from './revisions.ts'

/**
 * The choice must be asked itself, and its shown value answer: one that is sent back does not. A `when` that names
 * no choice of its step, or comes round to itself, is never met.
 */
export function isAsked(ground: Ground, one: PinnedStep, ask: Ask): boolean {
  const followed = new Set<string>()
  let each = ask
  while (each.when !== undefined) {
    const choice = askOf(one, each.when.ask, 'choice')
    if (choice === undefined || followed.has(each.id)) return false
    if (optionAt(ground, one, choice.id) !== each.when.option) return false
    followed.add(each.id)
    each = choice
  }
  return true
}

/** The asks of a step that are asked, in its order. */
export function asksAsked(ground: Ground, one: PinnedStep): readonly Ask[] {
  return one.step.asks.filter((ask) => isAsked(ground, one, ask))
}

function optionAt(ground: Ground, one: PinnedStep, ask: string): string | undefined {
  const answer = stepRegister(ground, 'choice', { method: one.method.id, step: one.step.id, ask })?.answer
  return answer?.kind === 'choice' ? answer.body.option : undefined
}
