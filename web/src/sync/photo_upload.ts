/** Photos to the office by tus: resumable, by SHA-256, one at a time; thumbnails first, for they are small. */
import type { UploadOptions } from 'tus-js-client'
import type { PhotoTableRow } from '../store/tables.ts'
import { Refused } from './door.ts'
import type { Desk } from './exchange.ts'
import { TransportFault } from './types.ts'

const CHUNK_BYTES = 512 * 1024

/** Sends what lies on this phone only. A refused photo stays here, is said, and holds up no other. */
export async function sendPhotos(desk: Desk): Promise<void> {
  await sendThumbs(desk)
  let refused: Refused | undefined
  for (const row of await desk.store.sync.photosToSend()) {
    const said = await sendPhoto(desk, row)
    refused ??= said
  }
  if (refused !== undefined) throw refused
}

async function sendPhoto(desk: Desk, row: PhotoTableRow): Promise<Refused | undefined> {
  const bytes = await desk.store.sync.photoBytes(row.sha256)
  if (bytes === undefined) return undefined
  try {
    await upload(desk, row, bytes)
  } catch (error) {
    if (error instanceof Refused) return error
    throw error
  }
  await desk.store.sync.markPhoto(row.sha256, 'office')
  return undefined
}

async function sendThumbs({ store, door }: Desk): Promise<void> {
  for (const { thumb, bytes } of await store.sync.thumbsToSend()) {
    await door.ask({
      method: 'PUT',
      path: `/api/thumbs/${thumb}`,
      bytes,
      headers: { 'Content-Type': 'image/jpeg' },
    })
    await store.sync.keepThumb({ thumb, bytes, where: 'office' })
  }
}

async function upload({ store }: Desk, row: PhotoTableRow, bytes: ArrayBuffer): Promise<void> {
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
