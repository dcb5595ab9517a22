/** What a compiled method document holds. */
import { dumps, type Json } from './canonical.ts'
import type { LadderState, Purpose } from './entries.ts'

export type Named = { readonly id: string; readonly name: string }

export type TickAsk = Named & { readonly kind: 'tick' }
export type TextAsk = Named & { readonly kind: 'text' }
export type ChoiceOption = Named & { readonly stop: boolean }
export type ChoiceAsk = Named & { readonly kind: 'choice'; readonly options: readonly ChoiceOption[] }
/** Limits and plausible range are integers scaled by `decimals`. */
export type ReadingAsk = Named & {
  readonly kind: 'reading'
  readonly unit: string
  readonly decimals: number
  readonly min?: number
  readonly max?: number
  readonly plausible?: readonly [low: number, high: number]
  readonly points: readonly Named[]
}
export type PhotoAsk = Named & { readonly kind: 'photo'; readonly show: string; readonly deadline: string }
export type LotAsk = Named & { readonly kind: 'lot'; readonly of: string }
export type TallyAsk = Named & { readonly kind: 'tally'; readonly group: string; readonly to: LadderState }
export type HeatSettings = {
  readonly sensors_unit: string
  readonly decimals: number
  readonly lagging_min: number
  readonly leading_max: number
  readonly soak_s: number
  readonly gap_max_s: number
  readonly ramp_s: number
  readonly release: readonly string[]
  readonly cold_below: number
}
export type HeatRunAsk = Named & {
  readonly kind: 'heat_run'
  readonly zone: string
  readonly purpose: Purpose
  readonly settings: HeatSettings
}
export type CountersignAsk = Named & {
  readonly kind: 'countersign'
  readonly of: string
  readonly other_device: boolean
  readonly at_the_car: boolean
}
export type ComputeAsk = Named & {
  readonly kind: 'compute'
  readonly computation: string
  readonly groups: readonly string[]
}
export type Ask =
  | TickAsk
  | TextAsk
  | ChoiceAsk
  | ReadingAsk
  | PhotoAsk
  | LotAsk
  | TallyAsk
  | HeatRunAsk
  | CountersignAsk
  | ComputeAsk

export type StepDoc = {
  readonly id: string
  readonly title: string
  readonly instruction: string
  readonly caution: string
  readonly tools: readonly string[]
  readonly who: readonly string[]
  readonly people: number
  readonly needs: readonly string[]
  readonly hold: boolean
  readonly hold_countersign: string
  readonly meanwhile: readonly string[]
  readonly sets: readonly string[]
  readonly clears: readonly string[]
  readonly asks: readonly Ask[]
}
export type StageDoc = { readonly id: string; readonly title: string; readonly steps: readonly StepDoc[] }
export type ConditionDoc = Named & {
  readonly asked_each_morning: boolean
  readonly set_by: 'step' | 'heat_run'
}
export type GroupDoc = Named & { readonly positions: readonly string[] }
export type ZoneDoc = Named & { readonly pads: readonly Named[]; readonly sensors: readonly Named[] }

/** One issued revision of a method; its digest is the SHA-256 of its canonical JSON. */
export type MethodDoc = {
  readonly form: 1
  readonly id: string
  readonly title: string
  readonly revision: string
  readonly invented: boolean
  readonly conditions: readonly ConditionDoc[]
  readonly groups: readonly GroupDoc[]
  readonly zones: readonly ZoneDoc[]
  readonly materials: readonly Named[]
  readonly drawings: { readonly [name: string]: string }
  readonly stages: readonly StageDoc[]
}

/** The moments of a heat run, in the order they come. */
export const MOMENTS = ['on', 'soaked', 'workable', 'lifted', 'off', 'cold'] as const
export type Moment = (typeof MOMENTS)[number]

/** The one ladder of a rivet's states, lowest first. */
export const LADDER: readonly LadderState[] = [
  'hole_checked',
  'rivet_seated',
  'set',
  'set_and_checked',
  'in_place',
  'mandrel_out',
  'head_drilled',
  'head_off',
  'shank_out',
]

/** Steps of a method in their order. */
export function stepsOf(method: MethodDoc): readonly StepDoc[] {
  return method.stages.flatMap((stage) => stage.steps)
}

/** A step's canonical JSON: an entry answers under another revision only where this is byte-equal. */
export function stepText(step: StepDoc): string {
  return dumps(step as unknown as Json)
}
