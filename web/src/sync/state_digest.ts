/** This phone's digest of a job's card state, where both sides can have folded the same. */
import { dumps, type Json } from '../core/canonical.ts'
import { sha256Hex } from '../core/digest.ts'
import { isKnown } from '../core/entries.ts'
import { FOLD_VERSION, fold } from '../core/fold/index.ts'
import { methodsNamed } from '../core/methods_named.ts'
import type { Store } from '../store/index.ts'
import type { StateDigestOf } from './round.ts'

export function stateDigests(store: Store): StateDigestOf {
  return async (job, version) => {
    if (version !== FOLD_VERSION) return undefined
    const entries = (await store.entries(job)).map((stored) => stored.entry)
    if (!entries.every(isKnown)) return undefined
    const methods = await store.methods()
    if (methodsNamed(entries).some((digest) => methods[digest] === undefined)) return undefined
    return sha256Hex(dumps(fold(methods, entries) as unknown as Json))
  }
}
