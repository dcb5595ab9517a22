/** Digests of texts and entries, computed at once (no promise), and the sealing of a draft into an entry. */
import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'
import { dumps, type JsonObject } from './canonical.ts'
import type { Draft, Entry, Envelope } from './entries.ts'

/** The `prev` of a chain's first entry. */
export const NO_PREV = '0'.repeat(64)

/** SHA-256 as lower-case hex; a text is hashed as its UTF-8. */
export function sha256Hex(content: string | Uint8Array): string {
  return bytesToHex(sha256(typeof content === 'string' ? utf8ToBytes(content) : content))
}

/** The identity of an entry: the digest of its canonical form without `hash`. */
export function entryHash(entryWithoutHash: JsonObject): string {
  return sha256Hex(dumps(entryWithoutHash))
}

/** The digest of a set of entries: their hashes, sorted, joined by line feeds. */
export function setDigest(hashes: Iterable<string>): string {
  return sha256Hex([...new Set(hashes)].sort().join('\n'))
}

/** An entry as it is stored and sent: the object, and the very text that was hashed. */
export type Sealed = { readonly entry: Entry; readonly text: string }

/** Draft and envelope made one entry with its hash; `text` is what goes to disk and over the wire. */
export function seal(draft: Draft, envelope: Envelope): Sealed {
  const open = { ...envelope, kind: draft.kind, body: draft.body } as unknown as JsonObject
  const whole: JsonObject = { ...open, hash: entryHash(open) }
  return { entry: whole as unknown as Entry, text: dumps(whole) }
}

/** What a device signs of its newest entry in a job; `prev` covers all before it. */
export function headText(head: { job: string; device: string; seq: number; hash: string }): string {
  return ['bayleaf-head-1', head.job, head.device, head.seq, head.hash].join('\n')
}
