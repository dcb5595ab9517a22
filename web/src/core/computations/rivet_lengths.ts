/**
 * Where a measured grip lies in a table of rivet lengths: in one row, on a border, over two rows, in none.
 *
 * A length must hold the whole grip, from its thinnest to its thickest, limits included (common practice, no source);
 * the span of the whole table decides nothing.
 */
import type { ResultValue } from '../entries.ts'
import type { RivetRow } from '../method.ts'
import { exact, finest, isOver, type Scaled, stepsOf } from './figures.ts'
import type { RivetTable } from './inputs.ts'
import { find, type Question, quantity } from './question.ts'

export type Stand = 'held' | 'border' | 'several' | 'spans' | 'no_fit'
/** One group's grip: as measured, and from its thinnest to its thickest; mm. */
export type Grip = {
  readonly group: string
  readonly mean: ResultValue
  readonly low: ResultValue
  readonly high: ResultValue
}
/** How a grip stands in a table: the row that holds it, or those to choose from. */
export type Standing = { readonly grip: Grip; readonly stand: Stand; readonly rows: readonly RivetRow[] }

/** The table of the question, else the one range that it gives. */
export function tableOf(asked: Question): RivetTable {
  return find(asked, 'lengths', 'table') ?? oneRow(quantity(asked, 'grip_from'), quantity(asked, 'grip_to'))
}

/** The range of one rivet whose length nobody named. */
export function oneRow(first: Scaled & { readonly unit: string }, last: Scaled): RivetTable {
  const decimals = finest([first, last])
  const row = { length: 0, low: stepsOf(first, decimals), high: stepsOf(last, decimals) }
  return { kind: 'table', rows: [row], unit: first.unit, decimals }
}

/** Whether the table says which rivet it is, or only what one rivet holds. */
export function hasLengths({ rows }: RivetTable): boolean {
  return rows.every((row) => row.length > 0)
}

/** Row by row; a border counts for the grip as measured, everything else for all of it. */
export function standingOf(grip: Grip, table: RivetTable): Standing {
  const { decimals } = table
  const low = (row: RivetRow): Scaled => ({ value: row.low, decimals })
  const high = (row: RivetRow): Scaled => ({ value: row.high, decimals })
  const touched = table.rows.filter((row) => !isOver(low(row), grip.high) && !isOver(grip.low, high(row)))
  if (touched.length === 0) return { grip, stand: 'no_fit', rows: [] }
  const holding = touched.filter((row) => !isOver(low(row), grip.low) && !isOver(grip.high, high(row)))
  if (holding.length === 0) return { grip, stand: 'spans', rows: touched }
  const ends = touched.flatMap((row) => [low(row), high(row)])
  if (ends.some((end) => !isOver(grip.mean, end) && !isOver(end, grip.mean))) {
    return { grip, stand: 'border', rows: touched }
  }
  return { grip, stand: holding.length === 1 ? 'held' : 'several', rows: holding }
}

/** The ends of the table; and of the gap between two rows, where the grip lies in one. */
export function around(grip: Grip, table: RivetTable): readonly ResultValue[] {
  const { rows, decimals } = table
  const ends = [
    named('from', Math.min(...rows.map((row) => row.low)), table),
    named('to', Math.max(...rows.map((row) => row.high)), table),
  ]
  const under = rows.map((row) => row.high).filter((value) => isOver(grip.low, { value, decimals }))
  const over = rows.map((row) => row.low).filter((value) => isOver({ value, decimals }, grip.high))
  if (under.length === 0 || over.length === 0) return ends
  return [...ends, named('gap_from', Math.max(...under), table), named('gap_to', Math.min(...over), table)]
}

/** A figure of the table, as it stands there. */
export function named(name: string, steps: number, { unit, decimals }: RivetTable): ResultValue {
  return exact(name, steps, unit, decimals)
}
