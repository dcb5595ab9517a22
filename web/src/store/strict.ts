/** Bare IndexedDB for the one write that a person waits for: a transaction that is on disk when it resolves. */
import type { Tables } from './tables.ts'

/**
 * Runs work in one strict readwrite transaction; resolves with its result once that is durable. Work that
 * says `noMore` after its last request need not hear that request's answer before the commit begins.
 */
export async function strictly<Result>(
  tables: Tables,
  stores: readonly string[],
  work: (transaction: IDBTransaction, noMore: () => void) => Promise<Result>,
): Promise<Result> {
  const transaction = openHandle(tables).transaction(stores, 'readwrite', { durability: 'strict' })
  const onDisk = completion(transaction)
  const noMore = once(() => transaction.commit())
  try {
    const result = await work(transaction, noMore)
    noMore()
    await onDisk
    return result
  } catch (error) {
    onDisk.catch(() => undefined) // told once, by the error that is on its way
    abort(transaction)
    throw error
  }
}

function once(act: () => void): () => void {
  let done = false
  return () => {
    if (!done) act()
    done = true
  }
}

/** Dexie lets go of its handle when the browser closes it or another tab upgrades it. */
function openHandle(tables: Tables): IDBDatabase {
  if (!tables.isOpen()) throw new DOMException('the browser closed the store', 'InvalidStateError')
  return tables.backendDB()
}

/** The result of a request, within its transaction. */
export function asked<Result>(request: IDBRequest<Result>): Promise<Result> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error)
  })
}

function completion(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve()
    transaction.onabort = () => reject(transaction.error ?? new DOMException('aborted', 'AbortError'))
  })
}

function abort(transaction: IDBTransaction): void {
  try {
    transaction.abort()
  } catch {
    // it ended by itself: nothing of it was kept
  }
}
