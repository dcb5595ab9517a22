// Names of people, roles, options and lots as the card prints them.
import type { Entry } from '../../core/entries.ts'
import { type Card, placeOf } from '../../core/views/card.ts'
import type { JobView } from '../../core/views/job_view.ts'
import { w } from './en.ts'
import { date } from './format.ts'

type Of<K extends Entry['kind']> = Extract<Entry, { kind: K }>

export function personName(card: Card, id: string): string {
  if (/^[0-]+$/.test(id)) return w.common.noPerson
  return card.people.get(id)?.name ?? w.common.unknownPerson
}

/** The part and its side; said once where the part's own words name the side. */
export function partWords({ part, side }: Pick<JobView, 'part' | 'side'>): string {
  const word = w.common.side[side]
  if (part === '' || word === '') return part || word
  return part.toLowerCase().split(/\W/).includes(word) ? part : `${part}, ${word}`
}

export function roleName(id: string): string {
  return w.common.roles[id] ?? id.replaceAll('_', ' ')
}

/** Who signs or makes a check, within a sentence: 'the office', 'a second technician'. */
export function doerName(id: string): string {
  return id === 'office' ? w.common.theOffice : roleName(id)
}

export function optionName(card: Card, { body }: Of<'choice'>): string {
  const ask = placeOf(card, body.method, body.step)?.step.asks.find((one) => one.id === body.ask)
  const options = ask?.kind === 'choice' ? ask.options : []
  return options.find((one) => one.id === body.option)?.name ?? body.option
}

export function lotLine(card: Card, { body }: Of<'lot'>): string {
  const materials = placeOf(card, body.method, body.step)?.method.materials ?? []
  const name = materials.find((one) => one.id === body.material)?.name ?? body.material
  const until = body.expires_ms === 0 ? w.card.lotLine.noExpiry : w.card.lotLine.until(date(body.expires_ms))
  return `${name}, ${w.card.lotLine.lot(body.lot)}, ${until}`
}
