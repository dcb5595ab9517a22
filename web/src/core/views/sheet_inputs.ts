/** Figures of suppliers' sheets in the place of the method's own fixed figures. */
import type { Input, Quantity, RivetTable } from '../computations/inputs.ts'
import { oneRow } from '../computations/rivet_lengths.ts'
import {
  FACTS,
  figureOf,
  type MaterialSheet,
  RANGE,
  type SheetValue,
  TABLES,
  TAKES,
} from '../computations/sheets.ts'
import type { ComputeAsk, ComputeInput } from '../method.ts'
import { askOf, type Card, placeOf } from './card.ts'

/** A figure of a sheet, and what the method says in its place. */
export type SheetUse = {
  readonly sheet: MaterialSheet
  readonly value: SheetValue
  readonly instead?: Omit<Quantity, 'kind'>
}
/** The rows of a sheet, and what the method says in their place. */
export type TableUse = {
  readonly sheet: MaterialSheet
  readonly table: RivetTable
  readonly instead?: RivetTable
}
type Uses = { readonly [name: string]: SheetUse }

/** What the sheets in use say to an ask; only what the method gives as a fixed figure is replaced. */
export function sheetInputs(card: Card, ask: ComputeAsk): Uses {
  const fixed = new Map(
    (ask.inputs ?? []).flatMap((one) => ('value' in one ? [[one.name, one] as const] : [])),
  )
  return usesOf(card, ask, TAKES, (name, { value }) => {
    const instead = fixed.get(name)
    return instead?.unit === value.unit && { instead }
  })
}

export function sheetFacts(card: Card, ask: ComputeAsk): Uses {
  return usesOf(card, ask, FACTS, () => ({}))
}

type OfSheets = { readonly [name: string]: { readonly sheet: MaterialSheet } }

export function digestsOf(...uses: readonly OfSheets[]): readonly string[] {
  return uses.flatMap((one) => Object.values(one).map(({ sheet }) => sheet.digest))
}

export function quantityOf({ value: { value, unit, decimals } }: SheetUse): Omit<Quantity, 'kind'> {
  return { value, unit, decimals }
}

export function inputOf(use: SheetUse): Input {
  return { kind: 'quantity', ...quantityOf(use) }
}

/** A sheet's rows in the place of the method's rows or range; its one range in the place of rows. */
export function sheetTables(card: Card, ask: ComputeAsk): { readonly [name: string]: TableUse } {
  const [name, role] = TABLES[ask.computation] ?? []
  const given = ask.inputs ?? []
  const rows = given.find((one) => one.name === name && 'rows' in one)
  const ends = RANGE.map((end) => given.find((one) => one.name === end && 'value' in one))
  if (name === undefined || role === undefined || !(rows || ends.every(Boolean))) return {}
  const sheet = card.sheets?.find((one) => one.material === materialOf(card, ask, role))
  const table = sheet?.table ?? (rows && sheet && rangeOf(sheet))
  if (sheet === undefined || !table) return {}
  const instead = rows && 'rows' in rows ? tableFrom(rows) : methodRange(ends)
  return { [name]: { sheet, table: { kind: 'table', ...table }, ...(instead && { instead }) } }
}

/** The one range of a sheet that names no length. */
function rangeOf(sheet: MaterialSheet): RivetTable | undefined {
  const [first, last] = RANGE.map((end) => figureOf(sheet, end))
  return first && last && oneRow(first, last)
}

function methodRange(ends: readonly (ComputeInput | undefined)[]): RivetTable | undefined {
  const [first, last] = ends
  return first && last && 'value' in first && 'value' in last ? oneRow(first, last) : undefined
}

export function tableFrom({ rows, unit, decimals }: Omit<RivetTable, 'kind'>): RivetTable {
  return { kind: 'table', rows, unit, decimals }
}

type Found = Pick<SheetUse, 'sheet' | 'value'>

function usesOf(
  card: Card,
  ask: ComputeAsk,
  book: typeof TAKES,
  fits: (name: string, found: Found) => Pick<SheetUse, 'instead'> | false,
): Uses {
  const { sheets = [] } = card
  if (sheets.length === 0) return {}
  const taken = Object.entries(book[ask.computation] ?? {})
  return Object.fromEntries(
    taken.flatMap(([name, [role, figure]]) => {
      const sheet = sheets.find((one) => one.material === materialOf(card, ask, role))
      const value = sheet && figureOf(sheet, figure)
      if (sheet === undefined || value === undefined) return []
      const fit = fits(name, { sheet, value })
      return fit ? [[name, { sheet, value, ...fit }] as const] : []
    }),
  )
}

/** What the lot input of that name asks for or its fixed word, else the name itself. */
function materialOf(card: Card, ask: ComputeAsk, role: string): string {
  const said = (ask.inputs ?? []).find((one) => one.name === role)
  if (said !== undefined && 'text' in said) return said.text
  const refs = (ask.inputs ?? []).flatMap((one) => (one.name === role && 'from' in one ? one.from : []))
  for (const ref of refs) {
    const place = placeOf(card, ref.method, ref.step)
    const found = place && askOf(place, ref.ask)
    if (found?.kind === 'lot') return found.of
  }
  return role
}
