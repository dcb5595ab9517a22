// What an ask wants, as its key says it, and what was recorded, as its line says it.
import type { Ask } from '../../core/method.ts'
import { type AskView, isOutside, verdictOf } from '../../core/views/answers.ts'
import type { Card, Known } from '../../core/views/card.ts'
import { tallyOf } from '../../core/views/tally_view.ts'
import { w } from '../words/en.ts'
import { quantity } from '../words/format.ts'
import { lotLine, optionName } from '../words/names.ts'

/** The verb on the main key. */
export function askVerb(ask: Ask): string {
  return w.card.verbs[ask.kind]
}

/** One line under an open ask: unit, number of points, who. */
export function askHint(view: AskView): string {
  const { ask } = view
  switch (ask.kind) {
    case 'reading':
      return w.card.hints.reading(limitsWords(ask), ask.points.length)
    case 'tally':
      return w.card.leftToDo(tallyOf(view.positions, ask).left)
    case 'countersign':
      return w.card.wantsRole(w.common.roles[ask.of] ?? ask.of.replaceAll('_', ' '))
    case 'photo':
      return w.states.wanted
    case 'choice':
      return ask.options.map((option) => option.name).join(' · ')
    default:
      return ''
  }
}

function limitsWords(ask: Extract<Ask, { kind: 'reading' }>): string {
  const { min, max, unit, decimals } = ask
  const words = [
    min === undefined ? '' : w.card.limits.min(quantity(min, decimals, unit)),
    max === undefined ? '' : w.card.limits.max(quantity(max, decimals, unit)),
  ].filter((word) => word !== '')
  return words.length > 0 ? words.join(', ') : quantity(0, 0, unit).slice(1).trim()
}

/** `fault`: it stands, but does not answer as it is: sent back, outside, marked, void. */
export type AnswerLine = { readonly known: Known; readonly line: string; readonly fault: boolean }

/** What stands recorded: one line for each value. */
export function askAnswers(card: Card, view: AskView): readonly AnswerLine[] {
  const { ask } = view
  const values = view.values.flatMap(({ known, name, sentBack }) => {
    if (known === undefined) return []
    const words = valueWords(card, known)
    const line = name === '' ? words : `${name}: ${words}`
    return [{ known, line, fault: sentBack !== '' || isOutsideOf(ask, known) }]
  })
  const signs = view.signs.map(({ known, state }) => ({
    known,
    line: signWords(state.why),
    fault: !state.counts,
  }))
  const lots = view.lots.map(({ known, marked }) => ({
    known,
    line: known.entry.kind === 'lot' ? lotLine(card, known.entry) : '',
    fault: marked,
  }))
  return [...values, ...lots, ...signs]
}

function isOutsideOf(ask: Ask, { entry }: Known): boolean {
  if (entry.kind === 'result') return entry.body.verdict === 'outside'
  if (entry.kind === 'choice' && ask.kind === 'choice') {
    return ask.options.some((one) => one.id === entry.body.option && one.stop)
  }
  return (
    ask.kind === 'reading' &&
    entry.kind === 'reading' &&
    'value' in entry.body &&
    isOutside(verdictOf(ask, entry.body.value))
  )
}

function valueWords(card: Card, known: Known): string {
  const { entry } = known
  switch (entry.kind) {
    case 'tick':
      return entry.body.value === 'done' ? w.states.done : w.states.not_applicable
    case 'text':
      return entry.body.value
    case 'choice':
      return optionName(card, entry)
    case 'reading':
      return 'value' in entry.body ? quantity(entry.body.value, entry.body.decimals, entry.body.unit) : ''
    case 'result':
      return w.card.verdict[entry.body.verdict]
    default:
      return ''
  }
}

function signWords(why: AskView['signs'][number]['state']['why']): string {
  return why === '' ? w.card.signed : w.card.void[why]
}
