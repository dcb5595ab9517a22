/** Card state: what all entries of a job add up to. Both folds write it as the same bytes. */
import type { Kind, LadderState, Mark, Piece, Purpose } from './entries.ts'
import type { Moment } from './method.ts'

type Hash = string
type Hashes = readonly Hash[]
/** A hash, or empty where there is none. */
type HashOrNone = string

export type Strike = { readonly target: Hash; readonly by: Hashes }
export type JobState = {
  readonly open: HashOrNone
  readonly place: HashOrNone
  readonly pin: HashOrNone
  readonly life: HashOrNone
  readonly closed: boolean
  readonly filed: Hashes
  readonly assigned: readonly string[]
}
export type RegisterKind =
  | 'open'
  | 'assign'
  | 'place'
  | 'pin'
  | 'life'
  | 'condition'
  | Extract<Kind, 'tick' | 'text' | 'choice' | 'reading' | 'result'>
export type RegisterState = {
  readonly kind: RegisterKind
  readonly method: string
  readonly step: string
  readonly ask: string
  readonly point: string
  readonly shown: HashOrNone
  readonly standing: Hashes
  readonly sent_back: Hashes
}
export type HoldState = 'none' | 'held' | 'passed' | 'deviation'
export type StepState = {
  readonly method: string
  readonly step: string
  readonly done: '' | 'done' | 'not_applicable'
  readonly tick: HashOrNone
  readonly open: readonly string[]
  /** Asks whose `when` is not met: neither open nor judged. */
  readonly not_asked: readonly string[]
  readonly hold: HoldState
  readonly needs_open: readonly string[]
  /** Entries that put the step off, done since or not. */
  readonly later: Hashes
}
export type SlotState = {
  readonly method: string
  readonly step: string
  readonly slot: string
  readonly photos: Hashes
}
/** All lots that stand at the ask; a marked one answers only if a deviation names it: its step says if it is open. */
export type LotState = {
  readonly method: string
  readonly step: string
  readonly ask: string
  readonly answers: Hashes
  readonly marked: Hashes
}
export type MarkState = {
  readonly hash: Hash
  readonly mark: Mark
  readonly piece: Piece | ''
  readonly open: boolean
}
/** Where a position stands in the count. */
export type PlaceInCount = LadderState | 'lost' | 'untouched'
export type PositionState = {
  readonly position: string
  readonly group: string
  readonly generation: number
  readonly state: LadderState | ''
  readonly deciding: HashOrNone
  readonly marks: readonly MarkState[]
  readonly place: PlaceInCount
}
export type PieceCounts = { readonly [P in Piece]: number }
export type PeakState = { readonly sensor: string; readonly value: number }
/** `peak` is of the sensors on bond and metal, `peaks` of each sensor that was read. */
export type RunState = {
  readonly run: Hash
  readonly method: string
  readonly step: string
  readonly ask: string
  readonly zone: string
  readonly purpose: Purpose
  readonly acts: Hashes
  readonly readings: Hashes
  readonly turned_down: readonly string[]
  readonly lifted: readonly string[]
  readonly moments: readonly Moment[]
  readonly aborted: boolean
  readonly off: boolean
  readonly soak_ms: number
  readonly soak_counts_to_ms: number
  readonly peaks: readonly PeakState[]
  readonly peak?: number
  readonly peak_sensor?: string
}
export type ConditionState = {
  readonly id: string
  readonly on: boolean
  readonly by: Hashes
  /** The shown entry of who looked at it last, whatever they found. */
  readonly asked: HashOrNone
}
export type CountersignWhy = '' | 'own_value' | 'demand' | 'missing' | 'superseded' | 'struck'
export type CountersignState = {
  readonly hash: Hash
  readonly counts: boolean
  readonly why: CountersignWhy
}
export type FindingCode =
  | 'two_values'
  | 'over_without_effect'
  | 'strike_without_effect'
  | 'fork'
  | 'open_ask'
  | 'outside_limits'
  | 'stop_option'
  | 'wrong_lot'
  | 'expired_lot'
  | 'lost_piece'
  | 'damaged_hole'
  | 'found_without_lost'
  | 'void_countersign'
  | 'two_runs'
  | 'soak_short'
  | 'over_maximum'
  | 'clock_changed'
  | 'picked_person'
  | 'same_device'
  | 'run_unknown'
  | 'unknown_position'
  | 'stale_result'
  | 'missing_method'
  | 'made_under_other_revision'
  | 'position_beyond'
  | 'condition_gone'
  | 'nothing_to_compare'
export type Finding = {
  readonly code: FindingCode
  readonly at: readonly string[]
  readonly hashes: Hashes
  readonly accepted: HashOrNone
}

export type CardState = {
  readonly fold: 2
  readonly count: number
  readonly aside: Hashes
  readonly unknown: Hashes
  readonly struck: readonly Strike[]
  readonly job: JobState
  readonly missing_methods: readonly string[]
  readonly registers: readonly RegisterState[]
  readonly elsewhere: Hashes
  readonly steps: readonly StepState[]
  readonly slots: readonly SlotState[]
  readonly loose_photos: Hashes
  readonly lots: readonly LotState[]
  readonly positions: readonly PositionState[]
  readonly counts: { readonly [P in PlaceInCount]?: number }
  readonly pieces: { readonly owed: PieceCounts; readonly lost: PieceCounts }
  readonly runs: readonly RunState[]
  readonly conditions: readonly ConditionState[]
  readonly deviations: Hashes
  readonly notes: Hashes
  readonly countersigns: readonly CountersignState[]
  readonly heard: Hashes
  readonly clock: Hashes
  readonly findings: readonly Finding[]
}
