/** One photo to the office by tus: resumable, known by its SHA-256. Fetched when there is one to send. */
import { Upload as TusUpload, type UploadOptions } from 'tus-js-client'
import { Refused } from './door.ts'
import type { Upload } from './photo_upload.ts'
import { TransportFault } from './types.ts'

/** Mostly the whole photo: each piece costs the office a login and a sync, and what came of a broken one is kept. */
const CHUNK_BYTES = 4 * 1024 * 1024

export const tusUpload: Upload = async ({ store }, row, bytes) => {
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
    const sent = new TusUpload(new Blob([bytes], { type: row.type }), options)
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
