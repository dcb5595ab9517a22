/** A photo and its entry: bytes durable and read back first, then the entry, which a kill only delays. */
import type { Draft, Entry } from '../core/entries.ts'
import { APPEND_STORES, type Appended, appendOnce } from './append.ts'
import type { Connection } from './connection.ts'
import { hashed, readBack, writePhoto } from './photo_writing.ts'
import { asked, strictly } from './strict.ts'
import type { PhotoIntent, PhotoTableRow } from './tables.ts'
import type { ClockReading, PreparedPhoto } from './types.ts'

type Read = () => ClockReading

export async function recordPhotoIn(
  { run }: Connection,
  read: Read,
  device: string,
  photo: PreparedPhoto,
  intent: PhotoIntent,
): Promise<Entry> {
  const kept = await hashed(photo)
  await run((tables) => writePhoto(tables, kept, intent, read().at_ms))
  await run((tables) => readBack(tables, kept.sha256))
  const [made] = await payPending(run, read, device, kept.sha256)
  if (made === undefined) throw new Error(`photo ${kept.sha256}: owes no entry right after it was written`)
  return made.entry
}

/** The entries that photos still owe since a kill between bytes and entry. */
export async function settlePhotos(
  { run }: Connection,
  read: Read,
  device: string,
  changed: (job: string) => void,
): Promise<void> {
  const owing = await run((tables) => tables.photos.filter((row) => row.pending.length > 0).toArray())
  for (const { sha256, job } of owing) {
    await payPending(run, read, device, sha256)
    changed(job)
  }
}

/** Appends what the row owes and strikes the debt, in one transaction: exactly once. */
function payPending(run: Connection['run'], read: Read, device: string, sha256: string): Promise<Appended[]> {
  return run((tables) =>
    strictly(tables, [...APPEND_STORES, 'photos'], async (transaction) => {
      const photos = transaction.objectStore('photos')
      const row: PhotoTableRow | undefined = await asked(photos.get(sha256))
      if (row === undefined) return []
      const made = await appendAll(transaction, read, device, row)
      photos.put({ ...row, pending: [] })
      return made.reverse()
    }),
  )
}

async function appendAll(
  transaction: IDBTransaction,
  read: Read,
  device: string,
  row: PhotoTableRow,
): Promise<Appended[]> {
  const made: Appended[] = []
  for (const { job, place, by, auth, as } of row.pending) {
    const writing = { job, device, who: { by, auth, as }, drafts: [draftOf(row, place)] }
    made.push(...(await appendOnce(read, writing)(transaction)))
  }
  return made
}

function draftOf(row: PhotoTableRow, place: PhotoIntent['place']): Draft<'photo'> {
  const { sha256, bytes, type, width, height, thumb } = row
  const { method, digest, step, slot, position, caption } = place
  const about = { method, digest, step, slot, position, caption }
  return { kind: 'photo', body: { sha256, bytes, type, width, height, thumb, ...about } }
}
