/** What computations know of a heat plan that the office pinned to a zone of a job's method. */

/** Times in s after switch-on (null: never), temperatures in tenths of a degree C. */
export type PlanFigures = {
  readonly model: string
  readonly feasible: boolean
  readonly ambient_dC: number
  readonly workable_s: number | null
  readonly from_s: number | null
  readonly until_s: number | null
  readonly heat_until_s: number | null
  readonly release_until_s: number | null
  readonly soak_s: number
  readonly window_from_s: number | null
  readonly window_until_s: number | null
  readonly bond_peak_dC: readonly [low: number, high: number]
  readonly metal_peak_dC: readonly [low: number, high: number]
}
/** `plan` is the digest of the zone document. */
export type Plan = { readonly kind: 'plan'; readonly plan: string; readonly figures: PlanFigures }
