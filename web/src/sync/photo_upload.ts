/** Photos to the office, one at a time; thumbnails first, for they are small. */
import type { PhotoTableRow, ThumbRow } from '../store/tables.ts'
import { Refused } from './door.ts'
import type { Desk } from './exchange.ts'

/** Brings one photo to the office whole, or rejects with TransportFault or Refused. */
export type Upload = (desk: Desk, row: PhotoTableRow, bytes: ArrayBuffer) => Promise<void>

/** Sends what lies on this phone only. A refused picture stays here, is said, and holds up no other. */
export async function sendPhotos(desk: Desk, upload: Upload): Promise<void> {
  const said: (Refused | undefined)[] = []
  for (const row of await desk.store.sync.thumbsToSend()) said.push(await refusalOf(sendThumb(desk, row)))
  for (const row of await desk.store.sync.photosToSend())
    said.push(await refusalOf(sendPhoto(desk, upload, row)))
  const first = said.find((one) => one !== undefined)
  if (first !== undefined) throw first
}

async function refusalOf(sending: Promise<void>): Promise<Refused | undefined> {
  try {
    await sending
    return undefined
  } catch (error) {
    if (error instanceof Refused) return error
    throw error
  }
}

async function sendPhoto(desk: Desk, upload: Upload, row: PhotoTableRow): Promise<void> {
  const bytes = await desk.store.sync.photoBytes(row.sha256)
  if (bytes === undefined) return
  await upload(desk, row, bytes)
  await desk.store.sync.markPhoto(row.sha256, 'office')
}

async function sendThumb({ store, door }: Desk, { thumb, bytes }: ThumbRow): Promise<void> {
  const headers = { 'Content-Type': 'image/jpeg' }
  await door.ask({ method: 'PUT', path: `/api/thumbs/${thumb}`, bytes, headers })
  await store.sync.keepThumb({ thumb, bytes, where: 'office' })
}
