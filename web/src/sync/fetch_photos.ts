/** Other phones' thumbnails and photos: fetched when first looked at, checked by hash, then kept. */
import type { PhoneStore } from '../store/index.ts'
import { sha256Of } from '../store/photos.ts'
import type { Door } from './door.ts'
import { TransportFault } from './types.ts'

export async function fetchThumb(store: PhoneStore, door: Door, thumb: string): Promise<Blob | undefined> {
  const kept = await store.thumb(thumb)
  if (kept !== undefined) return kept
  const bytes = await fetched(door, `/api/thumbs/${thumb}`, thumb)
  if (bytes === undefined) return undefined
  await store.sync.keepThumb({ thumb, bytes, where: 'office' })
  return store.thumb(thumb)
}

export async function fetchPhoto(store: PhoneStore, door: Door, sha256: string): Promise<Blob | undefined> {
  const kept = await store.photo(sha256)
  if (kept !== undefined) return kept
  const bytes = await fetched(door, `/api/photos/${sha256}`, sha256)
  if (bytes === undefined) return undefined
  await store.sync.keepFetchedPhoto(sha256, bytes)
  return store.photo(sha256)
}

async function fetched(door: Door, path: string, sha256: string): Promise<ArrayBuffer | undefined> {
  const answer = await door.ask({ method: 'GET', path, headers: { Accept: 'image/*' } })
  if (answer.status !== 200) return undefined
  if ((await sha256Of(answer.bytes)) !== sha256)
    throw new TransportFault(`${path}: other bytes than asked for`)
  return answer.bytes
}
