/** The time line of a job: newest first, grouped by stage, with what is struck, late, set aside or sent back. */
import type { Entry, Kind, StepRef } from '../entries.ts'
import type { CardState } from '../state.ts'
import type { Filing } from './office_filing.ts'
import { entryOf, type JobLog, type LoggedEntry, madeAtMs } from './office_log.ts'
import { placeOf } from './office_names.ts'
import { beforeHolds, isLate, outOfOrder, typedAt } from './office_order.ts'
import { inOneGo } from './office_readings.ts'
import { type What, whatOf } from './office_what.ts'

export type TimeShape =
  | 'done'
  | 'record'
  | 'photo'
  | 'heat'
  | 'tally'
  | 'deviation'
  | 'finding'
  | 'countersign'
  | 'note'
  | 'office'
  | 'struck'
  | 'late'
  | 'aside'

export type StruckBy = {
  readonly hash: string
  readonly by: string
  readonly at_ms: number
  readonly reason: string
}

export type TimeItem = {
  readonly hash: string
  readonly kind: Kind
  readonly at_ms: number
  readonly received_ms: number
  readonly late: boolean
  /** It came after another device's later entries. */
  readonly outOfOrder: boolean
  /** Where in its heat run it was written down afterwards. */
  readonly typed_ms?: number
  /** The hold point that it came before, by the clocks. */
  readonly beforeHold: string
  readonly shape: TimeShape
  readonly what: What
  readonly by: string
  readonly auth: Entry['auth']
  readonly device: string
  readonly struck?: StruckBy
  readonly aside: boolean
  readonly unknown: boolean
  readonly sentBack: boolean
  /** It is not in the dossier. */
  readonly afterFiling: boolean
  readonly canStrike: boolean
  readonly canSendBack: boolean
}

export type TimeGroup = {
  readonly stage: number
  readonly title: string
  readonly items: readonly TimeItem[]
  /** The same, with readings that were taken in one go in one row. */
  readonly rows: readonly (readonly TimeItem[])[]
}

const SENT_BACK_KINDS: ReadonlySet<Kind> = new Set([
  'tick',
  'text',
  'choice',
  'reading',
  'result',
  'photo',
  'lot',
])
// A run's readings belong to the run: nothing there is to be done again.
const isSendable = (entry: Entry): boolean => SENT_BACK_KINDS.has(entry.kind) && !('run' in entry.body)
// What the server writes about records, and what would have no effect, offers no strike.
const NEVER_STRUCK: ReadonlySet<Kind> = new Set(['strike', 'file', 'open', 'aside'])

const SHAPES: { readonly [K in Kind]?: TimeShape } = {
  tick: 'done',
  photo: 'photo',
  heat: 'heat',
  heard: 'heat',
  tally: 'tally',
  deviation: 'deviation',
  clock: 'finding',
  countersign: 'countersign',
  note: 'note',
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
  strike: 'office',
}

function kindShape(entry: Entry): TimeShape {
  if (entry.kind === 'tally' && 'mark' in entry.body && entry.body.mark !== 'found') return 'finding'
  if (entry.kind === 'reading' && 'run' in entry.body) return 'heat'
  return SHAPES[entry.kind] ?? 'record'
}

type Lists = {
  readonly struck: ReadonlyMap<string, readonly string[]>
  readonly aside: ReadonlySet<string>
  readonly unknown: ReadonlySet<string>
  readonly sentBack: ReadonlySet<string>
  readonly afterFiling: ReadonlySet<string>
  readonly outOfOrder: ReadonlySet<string>
  readonly beforeHold: ReadonlyMap<string, string>
}

function listsOf(log: JobLog, state: CardState, filing: Filing): Lists {
  const back = log.items.flatMap(({ entry }) => (entry.kind === 'send_back' ? entry.body.hashes : []))
  return {
    struck: new Map(state.struck.map((strike) => [strike.target, strike.by])),
    aside: new Set(state.aside),
    unknown: new Set(state.unknown),
    sentBack: new Set(back),
    afterFiling: filing.at === 'filed' ? filing.after : new Set(),
    outOfOrder: outOfOrder(log),
    beforeHold: beforeHolds(log, state),
  }
}

function struckBy(log: JobLog, by: readonly string[] | undefined): StruckBy | undefined {
  const hash = by?.[0]
  const strike = hash === undefined ? undefined : entryOf(log, hash, 'strike')
  const item = hash === undefined ? undefined : log.byHash.get(hash)
  if (strike === undefined || item === undefined) return undefined
  return { hash: strike.hash, by: strike.by, at_ms: madeAtMs(item), reason: strike.body.reason }
}

function shapeOf(entry: Entry, lists: Lists, late: boolean): TimeShape {
  if (lists.struck.has(entry.hash)) return 'struck'
  if (lists.aside.has(entry.hash)) return 'aside'
  return late ? 'late' : kindShape(entry)
}

function itemOf(log: JobLog, lists: Lists, logged: LoggedEntry): TimeItem {
  const { entry, received_ms } = logged
  const late = isLate(logged)
  const disordered = lists.outOfOrder.has(entry.hash)
  const typed_ms = typedAt(entry)
  const struck = struckBy(log, lists.struck.get(entry.hash))
  const loose = lists.aside.has(entry.hash) || lists.unknown.has(entry.hash)
  const free = struck === undefined && !loose
  return {
    hash: entry.hash,
    kind: entry.kind,
    at_ms: madeAtMs(logged),
    received_ms,
    late,
    outOfOrder: disordered,
    ...(typed_ms === undefined ? {} : { typed_ms }),
    beforeHold: lists.beforeHold.get(entry.hash) ?? '',
    shape: shapeOf(entry, lists, late || disordered || typed_ms !== undefined),
    what: whatOf(log, entry),
    by: entry.by,
    auth: entry.auth,
    device: entry.device,
    ...(struck ? { struck } : {}),
    aside: lists.aside.has(entry.hash),
    unknown: lists.unknown.has(entry.hash),
    sentBack: free && lists.sentBack.has(entry.hash),
    afterFiling: lists.afterFiling.has(entry.hash),
    canStrike: free && !NEVER_STRUCK.has(entry.kind),
    canSendBack: free && isSendable(entry) && !lists.sentBack.has(entry.hash),
  }
}

type Stage = { readonly stage: number; readonly title: string }
const NO_STAGE: Stage = { stage: 0, title: '' }

function refOf(log: JobLog, entry: Entry): StepRef | undefined {
  if ('digest' in entry.body) return entry.body
  const run = 'run' in entry.body ? log.byHash.get(entry.body.run)?.entry : undefined
  return run !== undefined && 'digest' in run.body ? run.body : undefined
}

function stageOf(log: JobLog, entry: Entry, before: Stage): Stage {
  const ref = refOf(log, entry)
  const place = ref === undefined ? undefined : placeOf(log, ref)
  return place ? { stage: place.stageNumber, title: place.stage.title } : before
}

// Of one moment, the server's numbering decides: the sort is stable.
const oldestFirst = (a: LoggedEntry, b: LoggedEntry): number => madeAtMs(a) - madeAtMs(b)

/** All entries, newest first, in runs of one stage; what has no stage stands with what came before it. */
export function timeLine(log: JobLog, state: CardState, filing: Filing): readonly TimeGroup[] {
  const lists = listsOf(log, state, filing)
  const groups: (Stage & { items: TimeItem[] })[] = []
  let stage = NO_STAGE
  for (const logged of [...log.items].sort(oldestFirst)) {
    stage = stageOf(log, logged.entry, stage)
    if (groups[0]?.title !== stage.title || groups[0].stage !== stage.stage)
      groups.unshift({ ...stage, items: [] })
    groups[0]?.items.unshift(itemOf(log, lists, logged))
  }
  return groups.map((group) => ({ ...group, rows: inOneGo(log, group.items) }))
}
