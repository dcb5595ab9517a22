// What an ask wants, as its key says it.
import type { Ask } from '../../core/method.ts'
import type { AskView } from '../../core/views/answers.ts'
import { w } from '../words/en.ts'
import { quantity } from '../words/format.ts'
import { doerName } from '../words/names.ts'

/** The verb on the main key. */
export function askVerb(ask: Ask): string {
  return w.card.verbs[ask.kind]
}

/** One line under an open ask: unit, number of points, who. */
export function askHint(view: AskView): string {
  const { ask } = view
  switch (ask.kind) {
    case 'reading':
      return w.card.hints.reading(limitsWords(ask), ask.points.length, missingOf(view))
    case 'countersign':
      return w.card.wantsRole(doerName(ask.of))
    case 'photo':
      return w.states.wanted
    case 'choice':
      return ask.options.map((option) => option.name).join(' · ')
    default:
      return ''
  }
}

function missingOf(view: AskView): number {
  return view.values.filter((value) => value.known === undefined).length
}

function limitsWords(ask: Extract<Ask, { kind: 'reading' }>): string {
  const { min, max, unit, decimals, against, since } = ask
  if (since !== undefined) return w.card.hints.since
  if (against !== undefined) return w.card.hints.against
  const words = [
    min === undefined ? '' : w.card.limits.min(quantity(min, decimals, unit)),
    max === undefined ? '' : w.card.limits.max(quantity(max, decimals, unit)),
  ].filter((word) => word !== '')
  return words.length > 0 ? words.join(', ') : quantity(0, 0, unit).slice(1).trim()
}
