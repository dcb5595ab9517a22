/** What an entry is: the envelope, and the body of every kind, as the server's document tells them. */
import type * as wire from './wire_types.ts'

/** The person of what no person did. */
export const NIL_PERSON = '00000000-0000-0000-0000-000000000000'

/** A fact is past: what the document describes, read only. */
type Settled<Told> = Told extends object ? { readonly [Key in keyof Told]: Settled<Told[Key]> } : Told

/** All of an entry but kind, body and hash: the same in every kind. */
export type Envelope = Settled<Omit<wire.TickEntry, 'kind' | 'body' | 'hash'>>

/** Who writes, and how the device knows. */
export type Author = Pick<Envelope, 'by' | 'auth' | 'as'>

/** Every kind and its body. */
export type Bodies = { readonly [One in wire.Entry as One['kind']]: Settled<One['body']> }
export type Kind = keyof Bodies

/** The step that an entry is about, and the method revision that it was made under. */
export type StepRef = Pick<Bodies['tick'], 'method' | 'digest' | 'step'>

export type OpenBody = Bodies['open']
export type AdmitBody = Bodies['admit']
export type PhotoBody = Bodies['photo']
export type ReadingBody = Bodies['reading']
export type StepReadingBody = Settled<wire.ReadingOfStep>
export type RunReadingBody = Settled<wire.ReadingOfRun>
/** When in the run, in ms, and what was read. */
export type RunPoint = RunReadingBody['points'][number]
export type ResultValue = Settled<wire.ResultValue>

export type TallyBody = Bodies['tally']
export type TallyStateBody = Settled<wire.TallyState>
export type TallyMarkBody = Settled<wire.TallyMark>
export type LadderState = TallyStateBody['state']
export type Mark = TallyMarkBody['mark']
export type Piece = Exclude<TallyMarkBody['piece'], ''>

export type HeatBody = Bodies['heat']
export type HeatOnBody = Settled<wire.HeatOn>
export type HeatActBody = Settled<wire.HeatAct>
export type LaterAct = HeatActBody['act']
export type Purpose = HeatOnBody['purpose']

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
  condition: 'phone',
  later: 'phone',
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
