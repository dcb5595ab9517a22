/** Made from the OpenAPI document by `python tests/harness/wire_types.py`: never by hand. */

export type Entry =
  | OpenEntry
  | AssignEntry
  | PlaceEntry
  | PinEntry
  | CloseEntry
  | ReopenEntry
  | FileEntry
  | AsideEntry
  | AdmitEntry
  | AcceptEntry
  | SendBackEntry
  | TickEntry
  | TextEntry
  | ChoiceEntry
  | ReadingEntry
  | PhotoEntry
  | TallyEntry
  | LotEntry
  | HeatEntry
  | NoteEntry
  | DeviationEntry
  | CountersignEntry
  | StrikeEntry
  | ResultEntry
  | ClockEntry
  | HeardEntry
  | ConditionEntry
  | LaterEntry
export type ReadingBody = ReadingOfStep | ReadingOfRun
export type TallyBody = TallyState | TallyMark
export type HeatBody = HeatOn | HeatAct

export interface OpenEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: OpenBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'open'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A job begins.
 */
export interface OpenBody {
  invented: boolean
  order: string
  over: string[]
  part: string
  side: 'left' | 'right' | 'none'
  vehicle: string
  vin: string
}
export interface AssignEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: AssignBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'assign'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A person is put on the job, or taken off it.
 */
export interface AssignBody {
  on: boolean
  over: string[]
  person: string
}
export interface PlaceEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: PlaceBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'place'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * The hoist or bay.
 */
export interface PlaceBody {
  over: string[]
  place: string
}
export interface PinEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: PinBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'pin'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * All methods of the job by digest, in order.
 */
export interface PinBody {
  methods: string[]
  over: string[]
}
export interface CloseEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: LifeBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'close'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * The job is closed, or opened again.
 */
export interface LifeBody {
  over: string[]
  reason: string
}
export interface ReopenEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: LifeBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'reopen'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
export interface FileEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: FileBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'file'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * The job is filed with these chains; a reason if it is not complete.
 */
export interface FileBody {
  heads: FiledHead[]
  reason: string
}
export interface FiledHead {
  device: string
  hash: string
  seq: number
}
export interface AsideEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: AsideBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'aside'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * Entries are set aside.
 */
export interface AsideBody {
  code: string
  hashes: string[]
}
export interface AdmitEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: AdmitBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'admit'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * Entries that were set aside are let in.
 */
export interface AdmitBody {
  hashes: string[]
  reason: string
}
export interface AcceptEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: AcceptBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'accept'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A finding is accepted.
 */
export interface AcceptBody {
  at: string[]
  code: string
  hashes: string[]
  reason: string
}
export interface SendBackEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: SendBackBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'send_back'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * Values are returned to be done again.
 */
export interface SendBackBody {
  hashes: string[]
  remark: string
}
export interface TickEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: TickBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'tick'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A step, or a tick that it asks for, is done or not applicable.
 */
export interface TickBody {
  ask: string
  digest: string
  method: string
  over: string[]
  reason: string
  step: string
  value: 'done' | 'not_applicable'
}
export interface TextEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: TextBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'text'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A text that a step asks for.
 */
export interface TextBody {
  ask: string
  digest: string
  method: string
  over: string[]
  point: string
  step: string
  value: string
}
export interface ChoiceEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: ChoiceBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'choice'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * One of the options that a step offers.
 */
export interface ChoiceBody {
  ask: string
  digest: string
  method: string
  option: string
  over: string[]
  point: string
  step: string
}
export interface ReadingEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: ReadingBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'reading'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A number that a step asks for, as an integer of the ask's unit and decimals.
 */
export interface ReadingOfStep {
  ask: string
  decimals: number
  digest: string
  method: string
  over: string[]
  point: string
  step: string
  unit: string
  value: number
}
/**
 * What one sensor of a heat run read, as (run_ms, value).
 */
export interface ReadingOfRun {
  decimals: number
  points: [number, number][]
  run: string
  run_doubt: boolean
  sensor: string
  typed_time: boolean
  unit: string
}
export interface PhotoEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: PhotoBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'photo'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A photo, in a slot or without one.
 */
export interface PhotoBody {
  bytes: number
  caption?: string
  digest: string
  height: number
  method: string
  position?: string
  sha256: string
  slot: string
  step: string
  thumb: string
  type: 'image/jpeg' | 'image/png'
  width: number
}
export interface TallyEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: TallyBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'tally'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * How far a rivet is.
 */
export interface TallyState {
  generation: number
  position: string
  state:
    | 'hole_checked'
    | 'rivet_seated'
    | 'set'
    | 'set_and_checked'
    | 'in_place'
    | 'mandrel_out'
    | 'head_drilled'
    | 'head_off'
    | 'shank_out'
}
/**
 * What is wrong at a rivet, or found again.
 */
export interface TallyMark {
  generation: number
  lost: string
  mark: 'damaged_hole' | 'lost' | 'found'
  piece: 'head' | 'mandrel' | 'shank' | ''
  position: string
}
export interface LotEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: LotBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'lot'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * The lot of a material, with its expiry; 0 where none is printed.
 */
export interface LotBody {
  ask: string
  digest: string
  expires_ms: number
  lot: string
  material: string
  method: string
  step: string
}
export interface HeatEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: HeatBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'heat'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A heat run begins.
 */
export interface HeatOn {
  act: 'on'
  ask: string
  digest: string
  method: string
  pads: string[]
  plan: string
  purpose: 'removal' | 'cure'
  step: string
  zone: string
}
/**
 * What is done in a heat run, or said of it.
 */
export interface HeatAct {
  act: 'soaked' | 'workable' | 'turn_down' | 'lift' | 'off' | 'cold' | 'abort' | 'remark'
  pad: string
  run: string
  run_doubt: boolean
  run_ms: number
  text: string
  typed_time: boolean
}
export interface NoteEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: NoteBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'note'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A note, about a step or about nothing; `mixer` says what was done with the adhesive's mixer.
 */
export interface NoteBody {
  about: string[]
  digest: string
  method: string
  mixer?: 'stands' | 'flows' | 'changed'
  step: string
  text: string
}
export interface DeviationEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: DeviationBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'deviation'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A departure from the method or from a limit, with the reason.
 */
export interface DeviationBody {
  about: string[]
  digest: string
  method: string
  passes_hold: boolean
  step: string
  text: string
}
export interface CountersignEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: CountersignBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'countersign'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A second person has seen these entries.
 */
export interface CountersignBody {
  ask: string
  digest: string
  method: string
  saw: string[]
  step: string
}
export interface StrikeEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: StrikeBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'strike'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * An entry is crossed out.
 */
export interface StrikeBody {
  reason: string
  target: string
}
export interface ResultEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: ResultBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'result'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * What a computation gave, from which entries, and from which tables: sheets and plans, by digest.
 */
export interface ResultBody {
  ask: string
  computation: string
  digest: string
  inputs: string[]
  method: string
  model: string
  over: string[]
  point: string
  step: string
  tables?: string[]
  values: ResultValue[]
  verdict: 'inside' | 'outside' | 'none'
}
export interface ResultValue {
  decimals: number
  name: string
  unit: string
  value: number
}
export interface ClockEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: ClockBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'clock'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * The device's clock was changed.
 */
export interface ClockBody {
  jump_ms: number
  what: 'stepped' | 'set_back'
}
export interface HeardEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: HeardBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'heard'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * An alarm was heard, after how long.
 */
export interface HeardBody {
  moment: string
  run: string
  silent_s: number
}
export interface ConditionEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: ConditionBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'condition'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A standing condition was looked at: it holds, or it is gone.
 */
export interface ConditionBody {
  condition: string
  holds: boolean
  over: string[]
}
export interface LaterEntry {
  as: string[]
  at_ms: number
  auth: 'own' | 'pin' | 'picked'
  body: LaterBody
  by: string
  device: string
  hash: string
  job: string
  kind: 'later'
  load: string
  mono_ms: number
  prev: string
  seq: number
  v: 1
}
/**
 * A step is put off, with the reason; doing it is the end of that.
 */
export interface LaterBody {
  digest: string
  method: string
  reason: string
  step: string
}
