/** Photo bytes on disk: in chunks, hashed as read back, before any entry names them. */
import { bytesToHex } from '@noble/hashes/utils.js'
import { StoreFault } from './fault.ts'
import type { ChunkRow, PhotoIntent, PhotoTableRow, Tables } from './tables.ts'
import type { PreparedPhoto } from './types.ts'

export const CHUNK_BYTES = 256 * 1024

export async function sha256Of(bytes: ArrayBuffer): Promise<string> {
  return bytesToHex(new Uint8Array(await crypto.subtle.digest('SHA-256', bytes)))
}

/** What is about to be written; its hashes are computed outside any transaction. */
export type HashedPhoto = PreparedPhoto & { readonly sha256: string; readonly thumbHash: string }

export async function hashed(photo: PreparedPhoto): Promise<HashedPhoto> {
  const [sha256, thumbHash] = await Promise.all([sha256Of(photo.bytes), sha256Of(photo.thumb)])
  return { ...photo, sha256, thumbHash }
}

/** Writes bytes, thumbnail and the entry that they still owe; one transaction. */
export function writePhoto(tables: Tables, photo: HashedPhoto, intent: PhotoIntent, now_ms: number) {
  const touched = [tables.photo_chunks, tables.photos, tables.thumbs]
  return tables.transaction('rw', touched, async () => {
    const known = await tables.photos.get(photo.sha256)
    if (known !== undefined) {
      await tables.photos.put({ ...known, pending: [...known.pending, intent] })
      return
    }
    await tables.photo_chunks.bulkPut(chunksOf(photo))
    if ((await tables.thumbs.get(photo.thumbHash)) === undefined) {
      await tables.thumbs.put({ thumb: photo.thumbHash, bytes: photo.thumb, where: 'phone' })
    }
    await tables.photos.put(rowOf(photo, intent, now_ms))
  })
}

/** Reads the bytes back and compares their hash; StoreFault 'lost' where the disk gives other bytes. */
export async function readBack(tables: Tables, sha256: string): Promise<void> {
  const bytes = await photoBytes(tables, sha256)
  if (bytes === undefined || (await sha256Of(bytes)) !== sha256) {
    throw new StoreFault('lost')
  }
}

export async function photoBytes(tables: Tables, sha256: string): Promise<ArrayBuffer | undefined> {
  const chunks = await tables.photo_chunks
    .where('[sha256+index]')
    .between([sha256, 0], [sha256, Infinity])
    .toArray()
  return joined(chunks)
}

/** The bytes of chunks in their order; undefined without any. */
export function joined(chunks: readonly ChunkRow[]): ArrayBuffer | undefined {
  if (chunks.length === 0) return undefined
  const whole = new Uint8Array(chunks.reduce((bytes, chunk) => bytes + chunk.bytes.byteLength, 0))
  let at = 0
  for (const chunk of chunks) {
    whole.set(new Uint8Array(chunk.bytes), at)
    at += chunk.bytes.byteLength
  }
  return whole.buffer
}

export async function holdsBytes(tables: Tables, sha256: string): Promise<boolean> {
  const chunks = tables.photo_chunks.where('[sha256+index]').between([sha256, 0], [sha256, Infinity])
  return (await chunks.count()) > 0
}

/** Bytes of another phone's photo, kept after a look; they owe no entry and are at the office. */
export async function keepFetched(tables: Tables, sha256: string, bytes: ArrayBuffer): Promise<void> {
  await tables.photo_chunks.bulkPut(chunksOf({ sha256, bytes }))
}

export function chunksOf({ sha256, bytes }: { sha256: string; bytes: ArrayBuffer }): ChunkRow[] {
  const count = Math.max(1, Math.ceil(bytes.byteLength / CHUNK_BYTES))
  return Array.from({ length: count }, (_, index) => ({
    sha256,
    index,
    bytes: bytes.slice(index * CHUNK_BYTES, (index + 1) * CHUNK_BYTES),
  }))
}

function rowOf(photo: HashedPhoto, intent: PhotoIntent, now_ms: number): PhotoTableRow {
  const { sha256, type, width, height, thumbHash: thumb } = photo
  return {
    ...{ sha256, type, width, height, thumb, job: intent.job, bytes: photo.bytes.byteLength },
    ...{ kept_ms: now_ms, where: 'phone', covered: false, pending: [intent] },
  }
}
