/** Appending: new entries and their chain's head in one strict transaction, so that no two tabs fork a chain. */

import { NO_PREV, type Sealed, seal } from '../core/digest.ts'
import type { Author, Entry } from '../core/entries.ts'
import type { ChainRow, Tables } from './tables.ts'
import type { ClockReading, Drafting } from './types.ts'

export type Writing = {
  readonly job: string
  readonly device: string
  readonly who: Author
  readonly drafts: readonly Drafting[]
}
export type Appended = Sealed & { readonly order: number }

/** The tables that an append locks. */
export function appendTables(tables: Tables) {
  return [tables.entries, tables.chains, tables.outbox]
}

/**
 * One append. Where the connection dies after the commit and before its word of it, the second try
 * finds the first one's entries and makes none again.
 */
export function appendOnce(read: () => ClockReading, writing: Writing) {
  let tried: readonly Sealed[] = []
  return async (tables: Tables): Promise<Appended[]> => {
    const kept = await keptOf(tables, tried)
    if (kept.length > 0) return kept
    const sealed = sealAll(await headOf(tables, writing), read(), writing)
    tried = sealed
    return write(tables, sealed)
  }
}

async function keptOf(tables: Tables, tried: readonly Sealed[]): Promise<Appended[]> {
  const orders = await Promise.all(
    tried.map(({ entry }) => tables.entries.where('hash').equals(entry.hash).primaryKeys()),
  )
  return tried.flatMap((one, i) => (orders[i]?.[0] === undefined ? [] : [{ ...one, order: orders[i][0] }]))
}

async function headOf(tables: Tables, { job, device }: Writing): Promise<ChainRow> {
  return (await tables.chains.get([job, device])) ?? { job, device, seq: 0, hash: NO_PREV }
}

function sealAll(head: ChainRow, now: ClockReading, { job, device, who, drafts }: Writing): Sealed[] {
  let { seq, hash: prev } = head
  const made: Sealed[] = []
  for (const one of drafts) {
    seq += 1
    const draft = typeof one === 'function' ? one(made.map(({ entry }) => entry)) : one
    const sealed = seal(draft, { v: 1, job, device, seq, ...authorOf(who), ...now, prev })
    prev = sealed.entry.hash
    made.push(sealed)
  }
  return made
}

/** Only what the envelope has, sorted as it asks. */
function authorOf({ by, auth, as }: Author): Author {
  return { by, auth, as: [...new Set(as)].sort() }
}

async function write(tables: Tables, sealed: readonly Sealed[]): Promise<Appended[]> {
  const orders = (await tables.entries.bulkAdd(sealed.map(rowOf), { allKeys: true })) as number[]
  const appended = sealed.flatMap((one, i) => (orders[i] === undefined ? [] : [{ ...one, order: orders[i] }]))
  await tables.outbox.bulkAdd(appended.map(({ entry, order }) => ({ ...linkOf(entry), order })))
  const newest = sealed.at(-1)
  if (newest !== undefined) await tables.chains.put(linkOf(newest.entry))
  return appended
}

function rowOf({ entry, text }: Sealed) {
  return { ...linkOf(entry), text }
}

function linkOf({ job, device, seq, hash }: Entry): ChainRow {
  return { job, device, seq, hash }
}
