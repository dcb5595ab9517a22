/** Suppliers' sheets as phones hold them, and which input of which computation takes which figure of them. */

import type { RivetTable } from './inputs.ts'

/** `value` and the range that it may take, in `unit` / 10^decimals. */
export type SheetValue = {
  readonly name: string
  readonly value: number
  readonly low: number
  readonly high: number
  readonly unit: string
  readonly decimals: number
}
export type MaterialSheet = {
  readonly digest: string
  readonly group: string
  readonly material: string
  readonly name: string
  readonly sheet: string
  readonly revision: string
  /** A day such as 2026-05-31, empty where the sheet bears none. */
  readonly dated: string
  readonly values: readonly SheetValue[]
  /** Lengths of a rivet with their grips. */
  readonly table?: Omit<RivetTable, 'kind'> | null
}
/** The lot or material input (else the material of that name) whose sheet it is, and the figure. */
type Taken = readonly [role: string, figure: string]
type Book = { readonly [computation: string]: { readonly [input: string]: Taken } }

export const TAKES: Book = {
  open_time: { sheet_time: ['adhesive', 'open_time'], sheet_temperature: ['adhesive', 'open_time_at'] },
  cure_progress: {
    handling_time: ['adhesive', 'handling_time'],
    full_time: ['adhesive', 'full_cure'],
    sheet_temperature: ['adhesive', 'cure_at'],
    activation_energy: ['adhesive', 'activation_energy'],
    blob_least: ['adhesive', 'blob_hardness_min'],
    minimum_cure: ['adhesive', 'minimum_cure'],
  },
  bead_volume: {
    thinnest: ['adhesive', 'bondline_min'],
    thickest: ['adhesive', 'bondline_max'],
    cartridge: ['adhesive', 'cartridge'],
    left_in_mixer: ['adhesive', 'left_in_mixer'],
  },
  thermal_mismatch: { shear_modulus: ['adhesive', 'shear_modulus'] },
  bit_use: { limit: ['bit', 'holes_per_bit'] },
  grip: { grip_from: ['rivets', 'grip_from'], grip_to: ['rivets', 'grip_to'] },
}
/**
 * The input that takes a sheet's table of rivet lengths, and the lot whose sheet it is. The table also stands in the
 * place of one rivet's range.
 */
export const TABLES: { readonly [computation: string]: readonly [input: string, role: string] } = {
  grip: ['lengths', 'rivets'],
}
export const RANGE: readonly string[] = ['grip_from', 'grip_to']
/** Facts of the method that a computation reads beside its inputs. */
export const FACTS: Book = {
  hole_decision: {
    'rivet.hole_min_mm': ['rivets', 'hole_min'],
    'rivet.hole_max_mm': ['rivets', 'hole_max'],
  },
}

export function figureOf(sheet: MaterialSheet, name: string): SheetValue | undefined {
  return sheet.values.find((one) => one.name === name)
}
