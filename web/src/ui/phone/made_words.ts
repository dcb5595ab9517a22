// What was recorded, as its line under the ask says it.
import type { AskView } from '../../core/views/answers.ts'
import type { Card, Known } from '../../core/views/card.ts'
import { w } from '../words/en.ts'
import { lengthsIn } from '../words/en_length.ts'
import { quantity } from '../words/format.ts'
import { lotLine, optionName } from '../words/names.ts'

export function valueWords(card: Card, known: Known): string {
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
      return [lengthsIn(entry.body.values), w.card.verdict[entry.body.verdict]].filter(Boolean).join(' · ')
    case 'lot':
      return lotLine(card, entry)
    case 'countersign':
      return w.card.signed
    default:
      return ''
  }
}

/** A record under an ask that can be changed: the point that it is about, and its line. */
export type MadeRecord = { readonly known: Known; readonly point: string; readonly name: string }

/** Every record that stands under the ask, each of two that contradict each other too. */
export function madeRecords(view: AskView): readonly MadeRecord[] {
  const values = view.values.flatMap(({ point, name, known, standing }) => {
    const all = standing.length > 0 ? standing : known === undefined ? [] : [known]
    return all.map((one) => ({ known: one, point, name }))
  })
  const others = [...view.lots.map((lot) => lot.known), ...view.signs.map((sign) => sign.known)]
  return [...values, ...others.map((known) => ({ known, point: '', name: '' }))]
}
