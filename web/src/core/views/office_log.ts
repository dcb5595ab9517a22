/** A job's log as the office's page holds it: every entry with what the server knows beside it. */
import type { Entry, Kind } from '../entries.ts'
import type { MethodDoc } from '../method.ts'

/** `offset_ms` is the server's clock minus the author's, where it is known. */
export type LoggedEntry = {
  readonly entry: Entry
  readonly received_ms: number
  readonly offset_ms?: number
}

export type JobLog = {
  readonly job: string
  readonly items: readonly LoggedEntry[]
  readonly byHash: ReadonlyMap<string, LoggedEntry>
  readonly methods: { readonly [digest: string]: MethodDoc }
  readonly photosHere: ReadonlySet<string>
  readonly thumbsHere: ReadonlySet<string>
}

export const EMPTY_LOG: JobLog = {
  job: '',
  items: [],
  byHash: new Map(),
  methods: {},
  photosHere: new Set(),
  thumbsHere: new Set(),
}

/** The log with more entries; an entry that is there already is not taken twice. */
export function withEntries(log: JobLog, more: readonly LoggedEntry[]): JobLog {
  const byHash = new Map(log.byHash)
  const fresh = more.filter((item) => {
    if (byHash.has(item.entry.hash)) return false
    byHash.set(item.entry.hash, item)
    return true
  })
  return fresh.length === 0 ? log : { ...log, items: [...log.items, ...fresh], byHash }
}

/** When an entry was made, by the server's clock where the author's offset is known. */
export function madeAtMs(item: LoggedEntry): number {
  return item.entry.at_ms + (item.offset_ms ?? 0)
}

/** The entry of that hash if it is of that kind. */
export function entryOf<K extends Kind>(log: JobLog, hash: string, kind: K): Entry<K> | undefined {
  const entry = log.byHash.get(hash)?.entry
  return entry?.kind === kind ? (entry as Entry<K>) : undefined
}

/** All entries of one kind, as they stand in the log. */
export function entriesOf<K extends Kind>(log: JobLog, kind: K): readonly Entry<K>[] {
  return log.items.map((item) => item.entry).filter((entry): entry is Entry<K> & Entry => entry.kind === kind)
}

/** Digests that the log names: the pinned ones, and those that entries were made under. */
export function digestsNamed(log: JobLog): readonly string[] {
  const named = new Set<string>()
  for (const { entry } of log.items) {
    if (entry.kind === 'pin') for (const digest of entry.body.methods) named.add(digest)
    else if ('digest' in entry.body && entry.body.digest !== '') named.add(entry.body.digest)
  }
  return [...named].sort()
}
