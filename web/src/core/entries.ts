/** What an entry is: the envelope, and the body of every kind. */

/** The person of what no person did. */
export const NIL_PERSON = '00000000-0000-0000-0000-000000000000'

export type Auth = 'own' | 'pin' | 'picked'

/** Who writes, and how the device knows. */
export type Author = {
  readonly by: string
  readonly auth: Auth
  readonly as: readonly string[]
}

/** All of an entry but kind, body and hash. */
export type Envelope = Author & {
  readonly v: 1
  readonly job: string
  readonly device: string
  readonly seq: number
  readonly at_ms: number
  readonly mono_ms: number
  readonly load: string
  readonly prev: string
}

type Hashes = readonly string[]

/** The step that an entry is about, and the method revision that it was made under. */
export type StepRef = { readonly method: string; readonly digest: string; readonly step: string }
type Over = { readonly over: Hashes }
type Amount = { readonly unit: string; readonly decimals: number }

export type OpenBody = Over & {
  readonly order: string
  readonly vin: string
  readonly vehicle: string
  readonly part: string
  readonly side: 'left' | 'right' | 'none'
  readonly invented: boolean
}
export type AssignBody = Over & { readonly person: string; readonly on: boolean }
export type PlaceBody = Over & { readonly place: string }
export type PinBody = Over & { readonly methods: readonly string[] }
export type LifeBody = Over & { readonly reason: string }
export type ChainHead = { readonly device: string; readonly seq: number; readonly hash: string }
export type FileBody = { readonly heads: readonly ChainHead[]; readonly reason: string }
export type AsideBody = { readonly hashes: Hashes; readonly code: string }
export type AdmitBody = { readonly hashes: Hashes; readonly reason: string }
export type AcceptBody = {
  readonly code: string
  readonly at: readonly string[]
  readonly hashes: Hashes
  readonly reason: string
}
export type SendBackBody = { readonly hashes: Hashes; readonly remark: string }

export type TickBody = StepRef &
  Over & { readonly ask: string; readonly value: 'done' | 'not_applicable'; readonly reason: string }
export type TextBody = StepRef &
  Over & { readonly ask: string; readonly point: string; readonly value: string }
export type ChoiceBody = StepRef &
  Over & { readonly ask: string; readonly point: string; readonly option: string }
export type StepReadingBody = StepRef &
  Over &
  Amount & { readonly ask: string; readonly point: string; readonly value: number }
export type RunPoint = readonly [run_ms: number, value: number]
export type RunReadingBody = Amount & {
  readonly run: string
  readonly sensor: string
  readonly points: readonly RunPoint[]
  readonly run_doubt: boolean
  readonly typed_time: boolean
}
export type ReadingBody = StepReadingBody | RunReadingBody

export type PhotoBody = StepRef & {
  readonly sha256: string
  readonly bytes: number
  readonly type: 'image/jpeg' | 'image/png'
  readonly width: number
  readonly height: number
  readonly thumb: string
  readonly slot: string
  readonly position?: string
  readonly caption?: string
}

export type LadderState =
  | 'hole_checked'
  | 'rivet_seated'
  | 'set'
  | 'set_and_checked'
  | 'in_place'
  | 'mandrel_out'
  | 'head_drilled'
  | 'head_off'
  | 'shank_out'
export type Piece = 'head' | 'mandrel' | 'shank'
export type Mark = 'damaged_hole' | 'lost' | 'found'
type PositionRef = { readonly position: string; readonly generation: number }
export type TallyStateBody = PositionRef & { readonly state: LadderState }
export type TallyMarkBody = PositionRef & {
  readonly mark: Mark
  readonly piece: Piece | ''
  readonly lost: string
}
export type TallyBody = TallyStateBody | TallyMarkBody

export type LotBody = StepRef & {
  readonly ask: string
  readonly material: string
  readonly lot: string
  readonly expires_ms: number
}

export type Purpose = 'removal' | 'cure'
export type HeatOnBody = StepRef & {
  readonly act: 'on'
  readonly ask: string
  readonly zone: string
  readonly purpose: Purpose
  readonly pads: readonly string[]
  readonly plan: string
}
export type LaterAct = 'soaked' | 'workable' | 'turn_down' | 'lift' | 'off' | 'cold' | 'abort' | 'remark'
export type HeatActBody = {
  readonly act: LaterAct
  readonly run: string
  readonly pad: string
  readonly run_ms: number
  readonly run_doubt: boolean
  readonly typed_time: boolean
  readonly text: string
}
export type HeatBody = HeatOnBody | HeatActBody

export type NoteBody = StepRef & { readonly text: string; readonly about: Hashes }
export type DeviationBody = StepRef & {
  readonly text: string
  readonly about: Hashes
  readonly passes_hold: boolean
}
export type CountersignBody = StepRef & { readonly ask: string; readonly saw: Hashes }
export type StrikeBody = { readonly target: string; readonly reason: string }
export type ResultValue = Amount & { readonly name: string; readonly value: number }
export type ResultBody = StepRef &
  Over & {
    readonly ask: string
    readonly point: string
    readonly computation: string
    readonly model: string
    readonly inputs: Hashes
    readonly values: readonly ResultValue[]
    readonly verdict: 'inside' | 'outside' | 'none'
  }
export type ClockBody = { readonly what: 'stepped' | 'set_back'; readonly jump_ms: number }
export type HeardBody = { readonly run: string; readonly moment: string; readonly silent_s: number }

/** Every kind and its body. */
export type Bodies = {
  readonly open: OpenBody
  readonly assign: AssignBody
  readonly place: PlaceBody
  readonly pin: PinBody
  readonly close: LifeBody
  readonly reopen: LifeBody
  readonly file: FileBody
  readonly aside: AsideBody
  readonly admit: AdmitBody
  readonly accept: AcceptBody
  readonly send_back: SendBackBody
  readonly tick: TickBody
  readonly text: TextBody
  readonly choice: ChoiceBody
  readonly reading: ReadingBody
  readonly photo: PhotoBody
  readonly tally: TallyBody
  readonly lot: LotBody
  readonly heat: HeatBody
  readonly note: NoteBody
  readonly deviation: DeviationBody
  readonly countersign: CountersignBody
  readonly strike: StrikeBody
  readonly result: ResultBody
  readonly clock: ClockBody
  readonly heard: HeardBody
}
export type Kind = keyof Bodies

/** What a screen asks to have recorded; the store adds the envelope. */
export type Draft<K extends Kind = Kind> = {
  [One in K]: { readonly kind: One; readonly body: Bodies[One] }
}[K]

/** One immutable record. `Entry<"tick">` is the entry of one kind, `Entry` of any. */
export type Entry<K extends Kind = Kind> = {
  [One in K]: Envelope & { readonly kind: One; readonly body: Bodies[One]; readonly hash: string }
}[K]

/** All kinds, and who writes them; office people may write those of a phone too. */
export const KINDS: { readonly [K in Kind]: 'office' | 'phone' } = {
  open: 'office',
  assign: 'office',
  place: 'office',
  pin: 'office',
  close: 'office',
  reopen: 'office',
  file: 'office',
  aside: 'office',
  admit: 'office',
  accept: 'office',
  send_back: 'office',
  tick: 'phone',
  text: 'phone',
  choice: 'phone',
  reading: 'phone',
  photo: 'phone',
  tally: 'phone',
  lot: 'phone',
  heat: 'phone',
  note: 'phone',
  deviation: 'phone',
  countersign: 'phone',
  strike: 'phone',
  result: 'phone',
  clock: 'phone',
  heard: 'phone',
}

/** True if this version knows the entry's form and kind; others are kept and forwarded, not folded. */
export function isKnown(entry: { readonly v: number; readonly kind: string }): boolean {
  return entry.v === 1 && Object.hasOwn(KINDS, entry.kind)
}

export function isKind<K extends Kind>(entry: Entry, kind: K): entry is Extract<Entry, { kind: K }> {
  return entry.kind === kind
}
export function isRunReading(body: ReadingBody): body is RunReadingBody {
  return 'run' in body
}
export function isTallyMark(body: TallyBody): body is TallyMarkBody {
  return 'mark' in body
}
export function isHeatOn(body: HeatBody): body is HeatOnBody {
  return body.act === 'on'
}
