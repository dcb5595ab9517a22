// Words of a grip before rows of rivet lengths: the answer, what asks, what a person chooses. Fetched with the page.
import type { Answer, Line } from '../../core/computations/shapes.ts'
import type { ResultValue } from '../../core/entries.ts'
import { lengthName } from './en_length.ts'
import { capital, listed } from './format.ts'

type Label = (id: string) => string
type Of = (name: string) => string

const figure = ({ value, decimals, unit }: ResultValue): string => lengthName(value, decimals, unit)

export const lengthWords = {
  grip: (mean: string) => `grip ${mean}`,
  band: (low: string, high: string) => `${low} to ${high}`,
  /** On one line of a key. */
  span: (from: string, to: string) => `${from}\u00a0to\u00a0${to}`,
  choose: (group: string, mean: string) => `${capital(group)}, grip ${mean}: which length?`,
  leave: 'Leave it open',
  left: (group: string) => `${group} left open`,
  chosen: (group: string, length: string) => `${group} ${length}`,
  missing: (groups: readonly string[]) => `Choose a length for ${listed(groups)}, or leave it open.`,
  row: (length: string, from: string, to: string) => `${length} holds ${from} to ${to}`,
  open: 'no length yet',
  none: 'no length holds it',
  drawn: (rows: readonly string[], grips: readonly string[]) => `${listed(rows)}. ${grips.join('. ')}.`,
}

/** `12 mm for header and post, 14 mm for foot`; then what is open. */
export function lengthSentence(answer: Answer, label: Label): string {
  const by = new Map<string, string[]>()
  for (const value of answer.values) {
    if (!value.name.startsWith('length_')) continue
    const groups = by.get(figure(value)) ?? []
    by.set(figure(value), [...groups, label(value.name.slice('length_'.length))])
  }
  const of = (codes: readonly string[]) =>
    answer.lines.filter(({ code }) => codes.includes(code)).flatMap(({ at }) => at.map(label))
  const asked = of(['length_border', 'length_spans', 'length_several'])
  const none = of(['length_no_fit'])
  const parts = [
    ...[...by].map(([length, groups]) => `${length} for ${listed(groups)}`),
    ...(asked.length === 0 ? [] : [`choose for ${listed(asked)}`]),
    ...(none.length === 0 ? [] : [`no rivet for ${listed(none)}`]),
  ]
  return `${capital(parts.join(', '))}.`
}

export const lengthLines: Readonly<Record<string, (at: readonly string[], of: Of, line: Line) => string>> = {
  length_border: (at, _, line) => `${listed(at)}: on the border of ${namesIn(line)}. Which, and why?`,
  length_no_fit: (at, of) =>
    `${listed(at)}: no length holds the grip. The table goes from ${of('from')} to ${of('to')}${
      of('gap_from') === '' ? '' : `, with a gap from ${of('gap_from')} to ${of('gap_to')}`
    }.`,
  length_several: (at, _, line) => `${listed(at)}: held by ${namesIn(line)}. Which, and why?`,
  length_spans: (at, _, line) =>
    `${listed(at)}: from thinnest to thickest gap the grip ${
      line.values.length > FIGURES_OF_ROW ? 'lies over' : 'leaves'
    } ${namesIn(line)}. Which, and why? Or measure again.`,
  length_open: (at) => `No length is settled for ${listed(at)}: choose one where the grip is worked out.`,
  length_chosen: (at) => `${listed(at)}: length chosen by hand.`,
}
/** Its length, and both ends of its grips. */
const FIGURES_OF_ROW = 3

function namesIn({ values }: Line): string {
  return listed(values.filter(({ name }) => name.startsWith('length_')).map(figure))
}

export type Laid = {
  readonly length: string
  readonly need: number
  readonly spare: number
  readonly trial: number
  readonly lay: number
}

/** The counts of each length; empty where no length is known. */
export function laidOf(values: readonly ResultValue[]): readonly Laid[] {
  const of = (name: string) => values.find((one) => one.name === name)?.value ?? 0
  return values.flatMap(({ name, value }) => {
    const length = lengthIn(name, 'lay_')
    if (length === '') return []
    const [need, spare] = [of(name.replace('lay_', 'need_')), of(name.replace('lay_', 'spare_'))]
    return [{ length, need, spare, trial: value - need - spare, lay: value }]
  })
}

export const laidWords = {
  length: 'Length',
  need: 'Holes',
  spare: 'Spares',
  trial: 'Trial',
  lay: 'Lay ready',
}

/** `18 of 12 mm and 10 of 14 mm`; empty where no length is known. */
export function laidSentence(values: readonly ResultValue[]): string {
  return listed(laidOf(values).map(({ length, lay }) => `${lay} of ${length}`))
}

function lengthIn(name: string, prefix: string): string {
  const [, whole = '', part = ''] = /^(\d+)(?:_(\d+))?mm$/.exec(name.slice(prefix.length)) ?? []
  return name.startsWith(prefix) && whole !== '' ? lengthName(Number(whole + part), part.length, 'mm') : ''
}
