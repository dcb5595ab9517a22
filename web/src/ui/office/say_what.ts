// An entry's description in words, with figures, terms and people filled in.
import type { Figure, What } from '../../core/views/office_what.ts'
import { listed, quantity } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { personName, type Shop } from './office_desk.ts'

export function figure(one: Figure): string {
  return quantity(one.value, one.decimals, one.unit)
}

/** The two halves of a row: what stands out, and the rest. */
export function sayWhat(shop: Shop, what: What): readonly [strong: string, rest: string] {
  return o.what.line(what, {
    subject: what.subject,
    detail: what.detail,
    figures: what.figures.map(figure).join(', '),
    terms: listed(what.terms.map(o.what.term)),
    people: listed(what.people.map((person) => personName(shop, person))),
  })
}
