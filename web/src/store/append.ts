/** Appending: new entries and their chain's head in one strict transaction, so that no two tabs fork a chain. */
import { NO_PREV, type Sealed, seal } from '../core/digest.ts'
import type { Author, Entry } from '../core/entries.ts'
import { asked } from './strict.ts'
import type { ChainRow } from './tables.ts'
import type { ClockReading, Drafting } from './types.ts'

export type Writing = {
  readonly job: string
  readonly device: string
  readonly who: Author
  readonly drafts: readonly Drafting[]
}
export type Appended = Sealed & { readonly order: number }

/** The stores that an append locks. */
export const APPEND_STORES = ['entries', 'chains', 'outbox'] as const

/** Where an append is only part of a transaction. */
const MORE_FOLLOWS = (): void => {}
const NOBODY_WAITS = (): void => {}

/**
 * One append. Where the connection dies after the commit and before its word of it, the second try
 * finds the first one's entries and makes none again. `written` is told what is on its way to disk.
 */
export function appendOnce(
  read: () => ClockReading,
  writing: Writing,
  written: (entries: readonly Entry[]) => void = NOBODY_WAITS,
) {
  let tried: readonly Sealed[] = []
  return async (transaction: IDBTransaction, noMore = MORE_FOLLOWS): Promise<Appended[]> => {
    const kept = await keptOf(transaction, tried)
    if (kept.length > 0) return kept
    const sealed = sealAll(await headOf(transaction, writing), read(), writing)
    tried = sealed
    const requests = write(transaction, sealed)
    noMore()
    const appended = await requests
    written(sealed.map(({ entry }) => entry))
    return appended
  }
}

async function keptOf(transaction: IDBTransaction, tried: readonly Sealed[]): Promise<Appended[]> {
  const byHash = transaction.objectStore('entries').index('hash')
  const orders = await Promise.all(tried.map(({ entry }) => asked(byHash.getKey(entry.hash))))
  return numbered(tried, orders)
}

async function headOf(transaction: IDBTransaction, { job, device }: Writing): Promise<ChainRow> {
  const head: ChainRow | undefined = await asked(transaction.objectStore('chains').get([job, device]))
  return head ?? { job, device, seq: 0, hash: NO_PREV }
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

/** All requests are made at once, for only the head had to be waited for; those with a promise last. */
async function write(transaction: IDBTransaction, sealed: readonly Sealed[]): Promise<Appended[]> {
  const [entries, outbox] = [transaction.objectStore('entries'), transaction.objectStore('outbox')]
  for (const { entry } of sealed) outbox.add(linkOf(entry))
  const newest = sealed.at(-1)
  if (newest !== undefined) transaction.objectStore('chains').put(linkOf(newest.entry))
  const added = sealed.map(({ entry, text }) => asked(entries.add({ ...linkOf(entry), text })))
  return numbered(sealed, await Promise.all(added))
}

function numbered(sealed: readonly Sealed[], orders: readonly (IDBValidKey | undefined)[]): Appended[] {
  return sealed.flatMap((one, i) => (typeof orders[i] === 'number' ? [{ ...one, order: orders[i] }] : []))
}

function linkOf({ job, device, seq, hash }: Entry): ChainRow {
  return { job, device, seq, hash }
}
