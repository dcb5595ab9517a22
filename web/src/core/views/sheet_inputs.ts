/** Figures of suppliers' sheets in the place of the method's own fixed figures. */
import type { Input, Quantity } from '../computations/inputs.ts'
import { FACTS, figureOf, type MaterialSheet, type SheetValue, TAKES } from '../computations/sheets.ts'
import type { ComputeAsk } from '../method.ts'
import { askOf, type Card, placeOf } from './card.ts'

/** A figure of a sheet, and what the method says in its place. */
export type SheetUse = {
  readonly sheet: MaterialSheet
  readonly value: SheetValue
  readonly instead?: Omit<Quantity, 'kind'>
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

export function digestsOf(...uses: readonly Uses[]): readonly string[] {
  return uses.flatMap((one) => Object.values(one).map(({ sheet }) => sheet.digest))
}

export function quantityOf({ value: { value, unit, decimals } }: SheetUse): Omit<Quantity, 'kind'> {
  return { value, unit, decimals }
}

export function inputOf(use: SheetUse): Input {
  return { kind: 'quantity', ...quantityOf(use) }
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
