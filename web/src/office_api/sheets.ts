// Suppliers' sheets, as the office's routes give and take them.
import type { MaterialSheet } from '../core/computations/sheets.ts'
import { mapAnswer } from './answer.ts'
import type { Transport } from './transport.ts'

export type SheetRow = MaterialSheet & {
  readonly id: string
  readonly about: string
  readonly by: string
  readonly made_ms: number
  /** The newest of its material that is not withdrawn. */
  readonly in_use: boolean
  /** 0 while it counts; then who withdrew it, and why. */
  readonly withdrawn_ms: number
  readonly withdrawn_by: string
  readonly why: string
}
/** A figure that computations take, in its one unit, within its range. */
export type KnownFigure = {
  readonly name: string
  readonly unit: string
  readonly least: number
  readonly most: number
}
export type SheetRows = {
  readonly sheets: readonly SheetRow[]
  readonly figures: { readonly [group: string]: readonly KnownFigure[] }
}
/** As it is printed on the sheet, with a decimal point; empty where the sheet gives none. */
export type TypedFigure = {
  readonly name: string
  readonly value: string
  readonly low: string
  readonly high: string
  readonly unit: string
}
/** A length and the grips that it is for, mm; `part` is the supplier's number of it, or empty. */
export type TypedRow = {
  readonly length: string
  readonly low: string
  readonly high: string
  readonly part: string
}
export type NewSheet = {
  readonly group: string
  readonly material: string
  readonly name: string
  readonly about: string
  readonly sheet: string
  readonly revision: string
  readonly dated: string
  readonly values: readonly TypedFigure[]
  readonly rows: readonly TypedRow[]
}
export type SheetJob = {
  readonly job: string
  readonly order: string
  readonly filed_ms: number
  readonly lots: readonly string[]
  /** How many results of the job rest on this very revision. */
  readonly results: number
}

export function sheets(transport: Transport) {
  return {
    sheets: () => transport.get<SheetRows>('/api/sheets'),
    addSheet: (named: NewSheet) => transport.post<{ digest: string }>('/api/sheets', named),
    withdrawSheet: (id: string, why: string) =>
      transport.post<Record<string, never>>(`/api/sheets/${id}/withdraw`, { why }),
    sheetJobs: async (digest: string) =>
      mapAnswer(
        await transport.get<{ jobs: readonly SheetJob[] }>(`/api/sheets/${digest}/jobs`),
        (found) => found.jobs,
      ),
  }
}
