// What the office's routes answer, as TypeScript. All times are milliseconds since 1970 by the server's clock.
import type { RunSoFar } from '../core/views/run_profile.ts'

export type * from './filed_rows.ts'
export type * from './shelf_rows.ts'

export type Me = {
  readonly office?: { readonly person: string; readonly name: string }
  readonly demo?: boolean
  readonly now_ms: number
}

export type MethodRef = {
  readonly digest: string
  readonly id: string
  readonly title: string
  readonly revision: string
}
export type StepRef = { readonly method: string; readonly step: string; readonly title: string }
export type NextStep = StepRef & { readonly stage: string }

export type BoardRun = RunSoFar & {
  readonly run: string
  readonly zone: string
  readonly purpose: 'removal' | 'cure'
  readonly moment: string
}

/** A hold point whose turn has come; `asks` are open besides countersigns, `of` is whose name it waits for. */
export type BoardHold = StepRef & { readonly asks: number; readonly of: readonly string[] }

/** A cure under way, as it is forecast; it moves with every reading. */
export type BoardForecast = {
  readonly zone: string
  readonly handling_ms: number
  readonly full_ms: number
}

export type BoardDevice = {
  readonly device: string
  readonly name: string
  readonly person: string
  readonly last_heard_ms: number
  readonly holds_entries: number
  readonly holds_photos: number
}

export type BoardJob = {
  readonly job: string
  readonly order: string
  readonly vin: string
  readonly vehicle: string
  readonly part: string
  readonly side: 'left' | 'right' | 'none'
  readonly place: string
  readonly invented: boolean
  readonly closed: boolean
  readonly filed: boolean
  readonly opened_ms: number
  readonly count: number
  readonly methods: readonly MethodRef[]
  readonly assigned: readonly string[]
  readonly steps_done: number
  readonly steps_total: number
  readonly stages: readonly number[]
  /** A letter a step: d done, n not applicable, o open; a capital for a hold point. */
  readonly marks: string
  readonly holds: readonly BoardHold[]
  readonly next?: NextStep
  readonly free?: StepRef
  readonly photos_wanted: number
  readonly photos_not_here: number
  readonly set_aside: number
  readonly refused: number
  readonly findings: number
  /** Steps that named an instrument whose calibration was overdue on that day. */
  readonly instruments_overdue: number
  readonly deviations: number
  readonly deviations_open: number
  readonly runs: readonly BoardRun[]
  readonly forecasts: readonly BoardForecast[]
  readonly devices: readonly BoardDevice[]
}

/** A filed job with entries that its dossier does not hold. */
export type LateJob = {
  readonly job: string
  readonly order: string
  readonly part: string
  readonly after_filing: number
  readonly late_ms: number | null
}

export type Board = {
  readonly now_ms: number
  readonly jobs: readonly BoardJob[]
  readonly late: readonly LateJob[]
}

export type JobOfOrder = { readonly job: string; readonly part: string; readonly filed: boolean }

export type EntryItem = {
  readonly text: string
  readonly received_ms: number
  readonly offset_ms?: number | null
}

export type EntriesPage = {
  readonly job: string
  readonly cursor: number
  readonly more: boolean
  readonly entries: readonly EntryItem[]
  readonly photos_here: readonly string[]
  readonly thumbs_here: readonly string[]
  readonly log: string
  readonly now_ms: number
}

export type RefusedText = {
  readonly text: string
  readonly code: string
  readonly message: string
  readonly field: string
  readonly device: string
  readonly received_ms: number
}

export type PersonRow = {
  readonly person: string
  readonly name: string
  readonly roles: readonly string[]
  readonly qualifications: readonly string[]
  readonly has_pin: boolean
  readonly has_password: boolean
}

export type PersonChange = {
  readonly name?: string
  readonly roles?: readonly string[]
  readonly qualifications?: readonly string[]
  readonly pin?: string
  readonly password?: string
}

export type DeviceRow = {
  readonly device: string
  readonly name: string
  readonly person: string
  readonly state: 'waiting' | 'paired' | 'revoked' | 'refused'
  readonly check: string
  readonly last_heard_ms: number
  readonly holds_entries: number
  readonly holds_photos: number
}

export type PairCode = { readonly code: string; readonly expires_ms: number; readonly now_ms: number }

export type MethodRow = MethodRef & { readonly invented: boolean; readonly imported_ms: number }
/** A method file and the drawings that it names, as texts. */
export type MethodFile = {
  readonly file: string
  readonly yaml: string
  readonly drawings: { readonly [name: string]: string }
}
export type MethodTaken = MethodRef & { readonly known: boolean }

export type CheckRemark = { readonly line: number; readonly field: string; readonly said: string }
export type CheckFault = {
  readonly line: number
  readonly field: string
  readonly found: string
  readonly allowed: string
}
/** What a method file holds: methods and remarks, or faults. Nothing of it is kept. */
export type CheckedFile = {
  readonly methods: readonly (MethodRef & { readonly steps: number; readonly known: boolean })[]
  readonly remarks: readonly CheckRemark[]
  readonly faults: readonly CheckFault[]
}
/** A job that pins a revision; `now` is false where it has been given another since. */
export type PinningJob = {
  readonly job: string
  readonly order: string
  readonly vehicle: string
  readonly part: string
  readonly filed_ms: number
  readonly now: boolean
}

export type NewJob = {
  readonly order: string
  readonly vin: string
  readonly vehicle: string
  readonly part: string
  readonly side: 'left' | 'right' | 'none'
  readonly place: string
  readonly invented: boolean
  readonly methods: readonly string[]
  readonly people: readonly string[]
}

export type HandInTaken = {
  readonly taken: number
  readonly set_aside: number
  readonly refused: number
  readonly known: number
  readonly photos: number
  readonly pictures_refused: number
  readonly jobs: readonly string[]
  readonly devices: readonly string[]
}

export type LogLine = {
  readonly at_ms: number
  readonly device: string
  readonly job: string
  readonly order: string
  readonly text: string
}

export type DemoPerson = {
  readonly name: string
  readonly role: string
  readonly pin: string
  readonly does: string
}
export type DemoDevice = {
  readonly id: string
  readonly name: string
  readonly person: string
  readonly url: string
  readonly fallback_url: string
}

export type DemoPlan = {
  readonly shop: string
  readonly office: { readonly name: string; readonly password: string; readonly url: string }
  readonly people: readonly DemoPerson[]
  readonly devices: readonly DemoDevice[]
  readonly job: { readonly order: string; readonly part: string }
  readonly soak_s: number
  readonly jobs: readonly { readonly order: string; readonly part: string; readonly what: string }[]
}

/** What a maker's instruction belongs to: a job, a method, or that method in that job. */
export type PaperPlace = { readonly name: string; readonly job: string; readonly method: string }
export type MakersPaper = PaperPlace & {
  readonly id: string
  readonly sha256: string
  readonly bytes: number
  readonly added_ms: number
}
