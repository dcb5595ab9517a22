/** Photo bytes on disk, in chunks. */
import { bytesToHex } from '@noble/hashes/utils.js'
import type { ChunkRow, Tables } from './tables.ts'

export const CHUNK_BYTES = 256 * 1024

export async function sha256Of(bytes: ArrayBuffer): Promise<string> {
  return bytesToHex(new Uint8Array(await crypto.subtle.digest('SHA-256', bytes)))
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

/** How many photos owe an entry, since a kill between bytes and entry. */
export function owingPhotos(tables: Tables): Promise<number> {
  return tables.photos.filter((row) => row.pending.length > 0).count()
}
