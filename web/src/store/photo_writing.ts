/** Writing a photo's bytes: hashed as read back, before any entry names them. */
import { StoreFault } from './fault.ts'
import { chunksOf, photoBytes, sha256Of } from './photos.ts'
import type { PhotoIntent, PhotoTableRow, Tables } from './tables.ts'
import type { PreparedPhoto } from './types.ts'

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

function rowOf(photo: HashedPhoto, intent: PhotoIntent, now_ms: number): PhotoTableRow {
  const { sha256, type, width, height, thumbHash: thumb } = photo
  return {
    ...{ sha256, type, width, height, thumb, job: intent.job, bytes: photo.bytes.byteLength },
    ...{ kept_ms: now_ms, where: 'phone', covered: false, pending: [intent] },
  }
}
