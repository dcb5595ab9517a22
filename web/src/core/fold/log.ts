/** A job's entries as the fold reads them: each once, sorted into set aside, unknown, struck and live. */
import { type Entry, isKnown, isRunReading, type Kind } from '../entries.ts'
import { asideTest } from './asides.ts'
import { append, byText, grouped, hashesOf } from './order.ts'
import { type StrikeEntry, strikeWorks } from './strikes.ts'

type EntryOf<K extends Kind> = Extract<Entry, { kind: K }>

export type Log = {
  readonly everything: ReadonlyMap<string, Entry>
  readonly aside: readonly string[]
  readonly unknown: readonly string[]
  /** Not set aside, of known kind or not. */
  readonly present: readonly Entry[]
  /** The entries that fold: known and not set aside; struck ones too, sorted by hash. */
  readonly live: ReadonlyMap<string, Entry>
  readonly liveByKind: ReadonlyMap<Kind, readonly Entry[]>
  /** Hashes of the strikes that work, by their target. */
  readonly struck: ReadonlyMap<string, readonly string[]>
  readonly idleStrikes: readonly IdleStrike[]
  readonly sentBack: ReadonlySet<string>
}
export type IdleStrike = { readonly strike: StrikeEntry; readonly target: Entry }

export function readLog(entries: readonly Entry[]): Log {
  const everything = new Map(entries.map((entry) => [entry.hash, entry]))
  const inOrder = [...everything.values()].sort((one, other) => byText(one.hash, other.hash))
  const isAside = asideTest(inOrder)
  const present = inOrder.filter((entry) => !isAside(entry))
  const folding = present.filter(isKnown)
  const live = new Map(folding.map((entry) => [entry.hash, entry]))
  const liveByKind = grouped(folding, (entry) => entry.kind)
  const strikes = readStrikes((liveByKind.get('strike') ?? []) as StrikeEntry[], present)
  return {
    everything,
    aside: hashesOf(inOrder.filter(isAside)),
    unknown: hashesOf(present.filter((entry) => !isKnown(entry))),
    present,
    live,
    liveByKind,
    ...strikes,
    sentBack: sentBackBy((liveByKind.get('send_back') ?? []) as EntryOf<'send_back'>[], live, strikes.struck),
  }
}

function readStrikes(
  strikes: readonly StrikeEntry[],
  present: readonly Entry[],
): Pick<Log, 'struck' | 'idleStrikes'> {
  const byHash = new Map(present.map((entry) => [entry.hash, entry]))
  const struck = new Map<string, string[]>()
  const idleStrikes: IdleStrike[] = []
  for (const strike of strikes) {
    const target = byHash.get(strike.body.target)
    if (target === undefined) continue
    if (strikeWorks(strike, target)) append(struck, target.hash, strike.hash)
    else idleStrikes.push({ strike, target })
  }
  return { struck, idleStrikes }
}

/** What unstruck `send_back` entries name; on other kinds than those that answer an ask it has no effect. */
function sentBackBy(
  sendings: readonly EntryOf<'send_back'>[],
  live: Log['live'],
  struck: Log['struck'],
): Set<string> {
  const named = sendings.filter((entry) => !struck.has(entry.hash)).flatMap((entry) => entry.body.hashes)
  return new Set(named.filter((hash) => canBeSentBack(live.get(hash))))
}

function canBeSentBack(entry: Entry | undefined): boolean {
  if (entry?.kind === 'reading') return !isRunReading(entry.body)
  return entry !== undefined && SENT_BACK.has(entry.kind)
}

const SENT_BACK: ReadonlySet<Kind> = new Set(['tick', 'text', 'choice', 'result', 'photo', 'lot'])

/** Live entries of one kind, struck ones too, sorted by hash. */
export function ofKind<K extends Kind>(log: Log, kind: K): readonly EntryOf<K>[] {
  return (log.liveByKind.get(kind) ?? []) as readonly EntryOf<K>[]
}

/** Live entries of one kind that are not struck, sorted by hash. */
export function unstruck<K extends Kind>(log: Log, kind: K): readonly EntryOf<K>[] {
  return ofKind(log, kind).filter((entry) => !isStruck(log, entry.hash))
}

export function isStruck(log: Log, hash: string): boolean {
  return log.struck.has(hash)
}
