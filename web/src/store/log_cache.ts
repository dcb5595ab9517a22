/** A job's entries in memory: read from disk once, then kept in step by whoever changes them. */
import type { Entry } from '../core/entries.ts'
import { grownMap } from '../core/grown_map.ts'
import type { Appended } from './append.ts'
import type { EntryRow, FateRow, Tables } from './tables.ts'
import type { Fate, StoredEntry } from './types.ts'

type Log = ReadonlyMap<string, StoredEntry>
/** Reads a log from disk; entries that it finds in what is known are not parsed again. */
type Load = (known: Log) => Promise<Log>

const NOTHING: Log = new Map()

export class LogCache {
  private readonly logs = new Map<string, Promise<Log>>()
  /** What was forgotten: a hash never names another entry, so none is parsed twice. */
  private readonly once = new Map<string, Promise<Log>>()
  private readonly lists = new WeakMap<Log, readonly StoredEntry[]>()

  async entries(job: string, load: Load): Promise<readonly StoredEntry[]> {
    const log = await this.log(job, load)
    const known = this.lists.get(log)
    if (known !== undefined) return known
    const list = [...log.values()].filter((stored) => stored.fate?.fate !== 'refused')
    this.lists.set(log, list)
    return list
  }

  /** Adds what was just appended here; a job that nobody has read is left on disk. */
  appended(job: string, appended: readonly Appended[]): void {
    this.change(job, (log) => {
      const more = appended
        .filter(({ entry }) => !log.has(entry.hash))
        .map(({ entry, text, order }) => ({ entry, text, order, where: 'phone' }) as const)
      const grown = grownMap(
        log,
        more.map((stored) => [stored.entry.hash, stored]),
      )
      const known = this.lists.get(log)
      if (known !== undefined) this.lists.set(grown, [...known, ...more])
      return grown
    })
  }

  /** Another tab or the sync changed it: the next look reads it from disk. */
  forget(job: string): void {
    const log = this.logs.get(job)
    if (log !== undefined) this.once.set(job, log)
    this.logs.delete(job)
  }

  private change(job: string, next: (log: Log) => Log): void {
    const log = this.logs.get(job)
    if (log !== undefined) this.logs.set(job, log.then(next))
  }

  private log(job: string, load: Load): Promise<Log> {
    const known = this.logs.get(job)
    if (known !== undefined) return known
    const before = (this.once.get(job) ?? Promise.resolve(NOTHING)).catch(() => NOTHING)
    this.once.delete(job)
    const loading = before.then(load)
    this.logs.set(job, loading)
    loading.catch(() => this.logs.delete(job))
    return loading
  }
}

/** A job's entries from disk, in order of arrival, each with where it is and what the server said. */
export async function readLog(tables: Tables, job: string, known: Log = NOTHING): Promise<Log> {
  const [rows, waiting, fates] = await tables.transaction(
    'r',
    [tables.entries, tables.outbox, tables.fates],
    () =>
      Promise.all([
        tables.entries.where('job').equals(job).toArray(),
        tables.outbox.filter((row) => row.job === job).toArray(),
        tables.fates.where('job').equals(job).toArray(),
      ]),
  )
  const onPhone = new Set(waiting.map((row) => row.hash))
  const fateOf = new Map(fates.map((row) => [row.hash, row]))
  return new Map(
    rows.map((row) => {
      const entry = known.get(row.hash)?.entry ?? (JSON.parse(row.text) as Entry)
      return [row.hash, storedOf(row, entry, onPhone.has(row.hash), fateOf.get(row.hash))]
    }),
  )
}

function storedOf(row: EntryRow, entry: Entry, onPhone: boolean, fate: FateRow | undefined): StoredEntry {
  return {
    entry,
    text: row.text,
    order: row.order ?? 0,
    where: onPhone || fate?.fate === 'refused' ? 'phone' : 'office',
    ...(row.received_ms === undefined ? {} : { received_ms: row.received_ms }),
    ...(row.offset_ms === undefined ? {} : { offset_ms: row.offset_ms }),
    ...(fate === undefined ? {} : { fate: fateWords(fate) }),
  }
}

export function fateWords({ fate, code, message, field }: Fate): Fate {
  return { fate, code, message, field }
}
