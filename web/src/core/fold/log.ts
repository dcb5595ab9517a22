/** A job's entries as the fold reads them: each once, sorted into set aside, unknown, struck and live. */
import { type Entry, isKnown, isRunReading, type Kind } from '../entries.ts'
import { asideTest } from './asides.ts'
import { type Fork, forksIn } from './forks.ts'
import { append, byText, grouped, hashesOf } from './order.ts'
import { type StrikeEntry, strikeWorks } from './strikes.ts'

type EntryOf<K extends Kind> = Extract<Entry, { kind: K }>

export type Log = {
  readonly everything: ReadonlyMap<string, Entry>
  readonly aside: readonly string[]
  readonly unknown: readonly string[]
  /** Not set aside, of known kind or not, sorted by hash. */
  readonly present: readonly Entry[]
  /** The entries that fold: known and not set aside; struck ones too. */
  readonly live: ReadonlyMap<string, Entry>
  readonly liveByKind: ReadonlyMap<Kind, readonly Entry[]>
  readonly unstruckByKind: ReadonlyMap<Kind, readonly Entry[]>
  /** Hashes of the strikes that work, by their target. */
  readonly struck: ReadonlyMap<string, readonly string[]>
  readonly idleStrikes: readonly IdleStrike[]
  readonly sentBack: ReadonlySet<string>
  readonly forks: readonly Fork[]
}
export type IdleStrike = { readonly strike: StrikeEntry; readonly target: Entry }

export function readLog(entries: readonly Entry[]): Log {
  const everything = new Map(entries.map((entry) => [entry.hash, entry]))
  const inOrder = sortedByHash(everything.values())
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
    unstruckByKind: unstruckOf(liveByKind, strikes.struck),
    ...strikes,
    sentBack: sentBackBy((liveByKind.get('send_back') ?? []) as EntryOf<'send_back'>[], live, strikes.struck),
    forks: forksIn(present),
  }
}

function sortedByHash(entries: Iterable<Entry>): Entry[] {
  return [...entries].sort((one, other) => byText(one.hash, other.hash))
}

function readStrikes(
  strikes: readonly StrikeEntry[],
  present: readonly Entry[],
): Pick<Log, 'struck' | 'idleStrikes'> {
  const struck = new Map<string, string[]>()
  const idleStrikes: IdleStrike[] = []
  if (strikes.length === 0) return { struck, idleStrikes }
  const byHash = new Map(present.map((entry) => [entry.hash, entry]))
  for (const strike of strikes) {
    const target = byHash.get(strike.body.target)
    if (target === undefined) continue
    if (strikeWorks(strike, target)) append(struck, target.hash, strike.hash)
    else idleStrikes.push({ strike, target })
  }
  return { struck, idleStrikes }
}

function unstruckOf(liveByKind: Log['liveByKind'], struck: Log['struck']): Log['unstruckByKind'] {
  if (struck.size === 0) return liveByKind
  return new Map([...liveByKind].map(([kind, own]) => [kind, own.filter(({ hash }) => !struck.has(hash))]))
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
  return (log.unstruckByKind.get(kind) ?? []) as readonly EntryOf<K>[]
}

export function isStruck(log: Log, hash: string): boolean {
  return log.struck.has(hash)
}
