/** The lengths that a person has to choose for a grip: what is asked of which group, and what was chosen. */
import { standingsOf } from '../computations/grip.ts'
import type { RivetTable } from '../computations/inputs.ts'
import type { Question } from '../computations/question.ts'
import { hasLengths, named, type Standing, tableOf } from '../computations/rivet_lengths.ts'
import type { ResultValue } from '../entries.ts'

/** Lengths by group, in the table's decimals; LEFT_OPEN where somebody said so. */
export type Chosen = { readonly [group: string]: number }

export const LEFT_OPEN = 0
const PREFIX = 'chosen_'

/** Each group before the rows; empty where the computation is another, or its table names no lengths. */
export function lengthsOf(
  question: Question,
): { readonly table: RivetTable; readonly standings: readonly Standing[] } | undefined {
  if (question.computation !== 'grip') return undefined
  const table = tableOf(question)
  return hasLengths(table) ? { table, standings: standingsOf(question) } : undefined
}

/** The groups that ask, each with the rows to choose from; a grip that no row touches is not asked about. */
export function askingOf(standings: readonly Standing[]): readonly Standing[] {
  return standings.filter(({ stand }) => stand !== 'held' && stand !== 'no_fit')
}

/** Groups that ask and were told neither a length that is offered nor that it stays open. */
export function unchosen(standings: readonly Standing[], chosen: Chosen): readonly Standing[] {
  return askingOf(standings).filter((one) => {
    const length = chosen[one.grip.group]
    return length !== LEFT_OPEN && !one.rows.some((row) => row.length === length)
  })
}

/** What was chosen, as figures of the result: the pick list reads them. */
export function chosenValues(question: Question, chosen: Chosen): readonly ResultValue[] {
  const found = lengthsOf(question)
  if (found === undefined) return []
  return askingOf(found.standings).flatMap(({ grip: { group }, rows }) => {
    const row = rows.find(({ length }) => length === chosen[group])
    return row === undefined ? [] : [named(`${PREFIX}${group}`, row.length, found.table)]
  })
}

/** What a result that was recorded says that somebody chose; a group that it left open is not in it. */
export function chosenIn(values: readonly ResultValue[]): Chosen {
  return Object.fromEntries(
    values.flatMap(({ name, value }) =>
      name.startsWith(PREFIX) ? [[name.slice(PREFIX.length), value] as const] : [],
    ),
  )
}
