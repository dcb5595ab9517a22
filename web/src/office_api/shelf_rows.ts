// Instruments, lots and materials, as the office's routes answer them.

/** Days are written as 2026-05-31; empty where nobody knows, or none is printed. */
export type InstrumentFacts = {
  readonly number: string
  readonly kind: string
  readonly calibrated_until: string
  readonly note: string
  readonly gone: boolean
}
export type InstrumentRow = InstrumentFacts & { readonly id: string }
export type LotFacts = {
  readonly material: string
  readonly lot: string
  readonly expires: string
  readonly note: string
  readonly gone: boolean
}
export type LotRow = LotFacts & { readonly id: string }
export type UsedLot = {
  readonly hash: string
  readonly job: string
  readonly order: string
  readonly filed_ms: number
  readonly method: string
  readonly step: string
  readonly material: string
  readonly lot: string
  readonly expires_ms: number
  readonly at_ms: number
  readonly by: string
  readonly state: string
}

export type MaterialValue = {
  readonly name: string
  readonly value: number
  readonly low: number
  readonly high: number
  readonly unit: string
  readonly source: string
  readonly applies: string
}
export type MaterialRow = {
  readonly id: string
  readonly about: string
  readonly facts: { readonly [name: string]: string }
  readonly values: readonly MaterialValue[]
  readonly limits: readonly MaterialValue[]
  readonly grips: readonly { readonly length: number; readonly low: number; readonly high: number }[]
  readonly grips_source: string
}
export type MaterialGroup = {
  readonly group: string
  readonly revision: string
  readonly things: readonly MaterialRow[]
}
