/** Inputs of a computation: answers of steps and constants of the method, typed by what they are. */
import type { ResultValue } from '../entries.ts'
import type { RivetRow, SensorOf } from '../method.ts'
import type { Rivet } from '../tally.ts'
import type { Plan } from './plan_figures.ts'
import type { Verdict } from './shapes.ts'

/** A reading at one place, or a constant (no `at_ms`): `value` in `unit` / 10^decimals. */
export type Quantity = {
  readonly kind: 'quantity'
  readonly value: number
  readonly unit: string
  readonly decimals: number
  readonly at_ms?: number
}
/** A reading at several named points, in the method's order. */
export type Points = {
  readonly kind: 'points'
  readonly at: readonly (readonly [point: string, value: number])[]
  readonly unit: string
  readonly decimals: number
  readonly at_ms?: number
}
export type Word = { readonly kind: 'word'; readonly text: string }
export type Chosen = { readonly kind: 'chosen'; readonly option: string; readonly stop: boolean }
/** Something that was ticked, for the time it was. */
export type Moment = { readonly kind: 'moment'; readonly at_ms: number }
export type Lots = {
  readonly kind: 'lots'
  readonly lots: readonly { readonly lot: string; readonly wrong: boolean; readonly expired: boolean }[]
}
/** The result of another computation. */
export type Earlier = {
  readonly kind: 'earlier'
  readonly computation: string
  readonly values: readonly ResultValue[]
  readonly verdict: Verdict
  readonly at_ms: number
}
/** One sensor of a run: what it sits on, and (run_ms, value) in the run's scale. */
export type SensorLog = {
  readonly sensor: string
  readonly of: SensorOf
  readonly points: readonly (readonly [run_ms: number, value: number])[]
}
export type Run = {
  readonly on_ms: number
  readonly aborted: boolean
  readonly decimals: number
  readonly soak_ms: number
  readonly soak_s: number
  readonly gap_max_s: number
  readonly sensors: readonly SensorLog[]
  /** What the verdict wants of it beside. */
  readonly purpose?: string
  readonly acts?: readonly (readonly [act: string, pad: string, run_ms: number])[]
  /** Pads in the order in which they should be let go. */
  readonly release?: readonly string[]
}
/** The heat runs of one ask that were not aborted. */
export type Runs = { readonly kind: 'runs'; readonly runs: readonly Run[] }
/** One rivet of a position: its furthest state, and its pieces that are lost and not found. */
export type Rivets = {
  readonly kind: 'rivets'
  readonly ladder: 'taking_out' | 'setting'
  readonly rivets: readonly Rivet[]
}
/** Lengths of one rivet, the shortest first, each with its grips, in `unit` / 10^decimals. */
export type RivetTable = {
  readonly kind: 'table'
  readonly rows: readonly RivetRow[]
  readonly unit: string
  readonly decimals: number
}
export type Input =
  | Quantity
  | Points
  | Word
  | Chosen
  | Moment
  | Lots
  | Earlier
  | Runs
  | Rivets
  | Plan
  | RivetTable
export type InputKind = Input['kind']
export type InputOf<K extends InputKind> = Extract<Input, { kind: K }>
