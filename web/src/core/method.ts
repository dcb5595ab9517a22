/** What a compiled method document holds; an optional member that is absent is empty, or as its comment says. */
import { dumps, type Json } from './canonical.ts'
import type { LadderState, Purpose } from './entries.ts'

export type Named = { readonly id: string; readonly name: string }

/** The ask is asked only if that choice of the same step shows that option. */
export type When = { readonly ask: string; readonly option: string }
/** An answer of some step; without a point the answer itself, or all its points in order. */
export type AnswerRef = {
  readonly method: string
  readonly step: string
  readonly ask: string
  readonly point?: string
}
type Asked = Named & { readonly when?: When }

export type TickAsk = Asked & { readonly kind: 'tick' }
/** `of: instrument`: the text names one of the shop's register by its number; `of: vin`: its check digit is remarked on. */
export type TextAsk = Asked & { readonly kind: 'text'; readonly of?: 'instrument' | 'vin' }
export type ChoiceOption = Named & { readonly stop: boolean }
export type ChoiceAsk = Asked & { readonly kind: 'choice'; readonly options: readonly ChoiceOption[] }
/**
 * Limits and plausible range are integers scaled by `decimals`. With `against` the limits hold for this value minus
 * that one, point by point; `since` is for the keypad's proposal alone. `where_needed`: a point without a value leaves
 * nothing open.
 */
export type ReadingAsk = Asked & {
  readonly kind: 'reading'
  readonly unit: string
  readonly decimals: number
  readonly min?: number
  readonly max?: number
  readonly plausible?: readonly [low: number, high: number]
  readonly points: readonly Named[]
  readonly against?: AnswerRef
  readonly since?: AnswerRef
  readonly where_needed?: boolean
}
/** `framing` are the words of the viewfinder's line drawing, `outline` that drawing's id. */
export type PhotoAsk = Asked & {
  readonly kind: 'photo'
  readonly show: string
  readonly deadline: string
  readonly framing?: string
  readonly outline?: string
}
export type LotAsk = Asked & { readonly kind: 'lot'; readonly of: string }
export type TallyAsk = Asked & {
  readonly kind: 'tally'
  readonly group: string
  readonly to: LadderState
}
/** Temperatures in `sensors_unit` / 10^decimals, rates in kelvin per minute at the same scale. */
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
  readonly metal_max?: number
  readonly neighbour_max?: number
  readonly ramp_max?: number
  readonly cooling_max?: number
  readonly lift_below?: number
  readonly setpoint?: number
}
export type RunPart = 'ramp' | 'soak' | 'release' | 'cool_down'
/** The `parts` (absent: all) of a run that belong to this step; with `continues` it was begun for that ask. */
export type HeatRunAsk = Asked & {
  readonly kind: 'heat_run'
  readonly zone: string
  readonly purpose: Purpose
  readonly settings: HeatSettings
  readonly parts?: readonly RunPart[]
  readonly continues?: AnswerRef
}
export type CountersignAsk = Asked & {
  readonly kind: 'countersign'
  readonly of: string
  readonly other_device: boolean
  readonly at_the_car: boolean
}
/** A rivet's length and the grips that it is for, ends included, in its table's decimals; length 0: not said. */
export type RivetRow = {
  readonly length: number
  readonly low: number
  readonly high: number
  /** The supplier's number or name of it. */
  readonly part?: string
}
/** One input of a computation: answers (`many` if the method listed them), or a fixed figure, word or table. */
export type ComputeInput =
  | { readonly name: string; readonly from: readonly AnswerRef[]; readonly many?: boolean }
  | { readonly name: string; readonly value: number; readonly unit: string; readonly decimals: number }
  | { readonly name: string; readonly text: string; readonly unit: string }
  | {
      readonly name: string
      readonly rows: readonly RivetRow[]
      readonly unit: string
      readonly decimals: number
    }
/** `zone`, `purpose` and `points` (a point set) are what it is about. */
export type ComputeAsk = Asked & {
  readonly kind: 'compute'
  readonly computation: string
  readonly groups?: readonly string[]
  readonly zone?: string
  readonly purpose?: string
  readonly points?: string
  readonly inputs?: readonly ComputeInput[]
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

/** `minutes`: how long it is planned to take; absent where the method does not say. */
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
  readonly minutes?: number
}
export type StageDoc = { readonly id: string; readonly title: string; readonly steps: readonly StepDoc[] }
export type ConditionDoc = Named & {
  readonly asked_each_morning: boolean
  readonly set_by: 'step' | 'heat_run'
}
export type GroupDoc = Named & { readonly positions: readonly string[]; readonly where?: string }
/** `zone` is told only in a zone made of others, and says of which the pad is. */
export type PadDoc = Named & { readonly size_mm?: readonly [w: number, h: number]; readonly zone?: string }
export type SensorOf = 'bond' | 'metal' | 'neighbour'
/** What the thermocouple is on; absent: the bond. */
export type SensorDoc = Named & { readonly of?: SensorOf }
export type ZoneDoc = Named & {
  readonly pads: readonly PadDoc[]
  readonly sensors: readonly SensorDoc[]
  readonly where?: string
  readonly made_of?: readonly string[]
}
/** `at_mm` is its nominal place: to the rear, to the left, up. */
export type PointDoc = Named & { readonly at_mm?: readonly [x: number, y: number, z: number] }
export type PointSet = { readonly id: string; readonly points: readonly PointDoc[] }
/** Where something is in a drawing, in the units of its view box; `zone` where its id alone is not one. */
export type MapSpot = { readonly id: string; readonly x: number; readonly y: number; readonly zone?: string }
export type MapBox = MapSpot & { readonly w: number; readonly h: number }
export type DrawingMap = {
  readonly drawing: string
  readonly size: readonly [w: number, h: number]
  readonly places: readonly MapSpot[]
  readonly pads: readonly MapBox[]
  readonly sensors: readonly MapSpot[]
  readonly zones: readonly MapBox[]
}
export type Fact =
  | { readonly name: string; readonly value: number; readonly decimals: number }
  | { readonly name: string; readonly text: string }

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
  readonly vehicle?: string
  readonly part?: string
  /** The method that is pinned before this one. */
  readonly needs_method?: string
  readonly point_sets?: readonly PointSet[]
  readonly maps?: readonly DrawingMap[]
  readonly facts?: readonly Fact[]
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

/** The two halves of the ladder. */
export type Ladder = 'taking_out' | 'setting'

/** The half of the ladder that is climbed to a state. */
export function ladderTo(to: LadderState): Ladder {
  return LADDER.indexOf(to) < LADDER.indexOf('in_place') ? 'setting' : 'taking_out'
}

const RUN_PARTS: readonly RunPart[] = ['ramp', 'soak', 'release', 'cool_down']

/** The parts of a run that belong to a heat ask, in their order. */
export function partsOf(ask: HeatRunAsk): readonly RunPart[] {
  return ask.parts ?? RUN_PARTS
}

/** What a sensor is on. */
export function sensorOf(sensor: SensorDoc): SensorOf {
  return sensor.of ?? 'bond'
}

/** Steps of a method in their order. */
export function stepsOf(method: MethodDoc): readonly StepDoc[] {
  return method.stages.flatMap((stage) => stage.steps)
}

/** A step's canonical JSON: an entry answers under another revision only where this is byte-equal. */
export function stepText(step: StepDoc): string {
  return dumps(step as unknown as Json)
}
