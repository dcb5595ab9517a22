/** Photos to the office by tus: resumable, by SHA-256, one at a time; thumbnails first, for they are small. */
import type { UploadOptions } from 'tus-js-client'
import type { PhotoTableRow, ThumbRow } from '../store/tables.ts'
import { Refused } from './door.ts'
import type { Desk } from './exchange.ts'
import { TransportFault } from './types.ts'

const CHUNK_BYTES = 512 * 1024

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

export const tusUpload: Upload = async ({ store }, row, bytes) => {
  // Loaded only when there is something to send: the first tick must not wait for it.
  const tus = await import('tus-js-client')
  await new Promise<void>((resolve, reject) => {
    const options: UploadOptions = {
      endpoint: '/api/photos',
      ...(row.upload_url ? { uploadUrl: row.upload_url } : {}),
      metadata: { sha256: row.sha256, type: row.type, job: row.job },
      chunkSize: CHUNK_BYTES,
      retryDelays: [500, 2_000],
      storeFingerprintForResuming: false,
      fingerprint: async () => row.sha256,
      onUploadUrlAvailable: () => void store.sync.setUploadUrl(row.sha256, sent.url ?? ''),
      onSuccess: () => resolve(),
      onError: (error) => reject(asFault(error)),
    }
    const sent = new tus.Upload(new Blob([bytes], { type: row.type }), options)
    sent.start()
  })
}

type TusFault = Error & { readonly originalResponse?: { getStatus(): number; getBody(): string } | null }

function asFault(error: TusFault): Error {
  const status = error.originalResponse?.getStatus() ?? 0
  if (status < 400 || status >= 500)
    return new TransportFault('the photo did not reach the office', { cause: error })
  return new Refused(status, codeIn(error.originalResponse?.getBody() ?? ''), error.message)
}

function codeIn(body: string): string {
  try {
    return String((JSON.parse(body) as { code?: unknown }).code ?? 'photo_refused')
  } catch {
    return 'photo_refused' // a status without the server's words
  }
}
