/** The heat plans that the office has pinned to a job's zones, as far as they are on this phone. */
import type { PlanFigures } from '../computations/plan_figures.ts'
import { type Prepared, prepared } from '../live/fit.ts'
import { FORM, familyOf, type ResponseDoc } from '../live/response_set.ts'

export type CardPlan = {
  readonly method: string
  readonly zone: string
  /** Digest of the zone document. */
  readonly plan: string
  readonly sha256: string
  readonly name: string
  readonly sentence: string
  /** What a step's computation takes of it; absent where the office did not tell it yet. */
  readonly figures?: PlanFigures
  /** The response set is on this phone. */
  readonly here: boolean
  /** Absent while it is not here, or of a form that this app does not read. */
  readonly set?: ResponseDoc
}

export function planFor(
  plans: readonly CardPlan[] | undefined,
  method: string,
  zone: string,
): CardPlan | undefined {
  return plans?.find((one) => one.method === method && one.zone === zone)
}

/** The text of a response set; undefined for a form that this app does not read. */
export function readSet(text: string): ResponseDoc | undefined {
  const document = JSON.parse(text) as ResponseDoc
  return document.form === FORM ? document : undefined
}

const made = new WeakMap<ResponseDoc, Prepared>()

/** What the fit stands on, worked out once for a response set. */
export function preparedOf(document: ResponseDoc): Prepared {
  const kept = made.get(document) ?? prepared(familyOf(document), document.workable_dC / 10)
  made.set(document, kept)
  return kept
}
