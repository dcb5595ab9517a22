/** The hand-in: all that only this phone has, as one file that the office reads without a network. */
import { dumps, type Json } from '../core/canonical.ts'
import { headText } from '../core/digest.ts'
import { headsToSign } from '../core/sync_plan.ts'
import type { PhoneStore } from '../store/index.ts'
import type { SignedHead } from '../store/tables.ts'

/** The file's first line; the second is one line of canonical JSON, then the bytes that it lists. */
export const HAND_IN_FORM = 'bayleaf-handin-1'

/** The largest count that IndexedDB takes. */
const EVERYTHING = 2 ** 32 - 1

export async function handInOf(store: PhoneStore, made_ms: number): Promise<Blob> {
  const entries = await store.sync.outbox(EVERYTHING)
  const photos = await photosOf(store)
  const thumbs = await store.sync.thumbsToSend()
  const words = {
    device: store.identity()?.device ?? '',
    made_ms,
    cards: await cardsOf(store),
    heads: await headsOf(store, entries),
    entries: entries.map(({ text }) => text),
    refused: (await store.refused()).map(({ text, fate }) => ({ text, code: fate.code })),
    photos: photos.map(({ bytes, ...photo }) => ({ ...photo, bytes: bytes.byteLength })),
    thumbs: thumbs.map(({ thumb, bytes }) => ({ sha256: thumb, bytes: bytes.byteLength })),
  }
  const text = `${HAND_IN_FORM}\n${dumps(words as unknown as Json)}\n`
  return new Blob([text, ...photos.map((photo) => photo.bytes), ...thumbs.map((thumb) => thumb.bytes)], {
    type: 'application/octet-stream',
  })
}

async function photosOf(store: PhoneStore) {
  const rows = await store.sync.photosToSend()
  const read = await Promise.all(
    rows.map(async ({ sha256, type, job }) => ({
      sha256,
      type,
      job,
      bytes: await store.sync.photoBytes(sha256),
    })),
  )
  return read.flatMap(({ bytes, ...photo }) => (bytes === undefined ? [] : [{ ...photo, bytes }]))
}

async function cardsOf(store: PhoneStore) {
  const key = store.sync.key()
  return key === undefined || key.card === '' ? [] : [{ card: key.card, signature: key.card_signature }]
}

async function headsOf(store: PhoneStore, entries: Parameters<typeof headsToSign>[0]): Promise<SignedHead[]> {
  const me = store.identity()
  if (me === undefined) return []
  const heads = headsToSign(entries, await store.sync.headsOwed(), me.device)
  return Promise.all(
    heads.map(async ({ job, device, seq, hash }) => ({
      ...{ job, device, seq, hash },
      signature: await me.sign(headText({ job, device, seq, hash })),
    })),
  )
}
