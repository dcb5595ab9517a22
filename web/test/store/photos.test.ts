// Photos: bytes first, in chunks, hashed as read back; then the entry, exactly once.
import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { sha256Hex } from '../../src/core/digest.ts'
import type { Entry } from '../../src/core/entries.ts'
import { StoreFault } from '../../src/store/index.ts'
import { hashed, writePhoto } from '../../src/store/photo_writing.ts'
import { CHUNK_BYTES } from '../../src/store/photos.ts'
import { Tables } from '../../src/store/tables.ts'
import type { PhotoPlace, PreparedPhoto } from '../../src/store/types.ts'
import { freshName, JOB, MARA, pairedStore } from './a_store.ts'

const PLACE: PhotoPlace = {
  method: 'spine',
  digest: 'd'.repeat(64),
  step: 's1',
  slot: 'before',
  position: '',
  caption: '',
}

function photoOf(bytes: number, seed = 1): PreparedPhoto {
  const content = Uint8Array.from({ length: bytes }, (_, i) => (i * 31 + seed * 17) % 251)
  content[0] = 0xff
  return {
    bytes: content.buffer,
    thumb: new Uint8Array([0xff, seed]).buffer,
    type: 'image/jpeg',
    width: 4,
    height: 3,
  }
}

test.each([1, CHUNK_BYTES - 1, CHUNK_BYTES, CHUNK_BYTES + 1, 3 * CHUNK_BYTES])(
  'a photo of %i bytes comes back byte for byte after a restart',
  async (bytes) => {
    const name = freshName()
    const store = await pairedStore(name)
    const photo = photoOf(bytes)
    const entry = (await store.recordPhoto(JOB, photo, PLACE, MARA)) as Entry<'photo'>
    store.close()
    const again = await pairedStore(name)
    const kept = await again.photo(entry.body.sha256)
    expect(sha256Hex(new Uint8Array((await kept?.arrayBuffer()) ?? new ArrayBuffer(0)))).toBe(
      entry.body.sha256,
    )
    expect(entry.body.sha256).toBe(sha256Hex(new Uint8Array(photo.bytes)))
    expect(await again.thumb(entry.body.thumb)).toBeDefined()
    expect(await again.unsent()).toEqual({ entries: 1, photos: 1 })
  },
)

test('a kill between bytes and entry is mended at the next start, once', async () => {
  const tables = new Tables(freshName())
  const store = await pairedStore(tables.name, tables)
  const intent = { job: JOB, place: PLACE, ...MARA }
  await writePhoto(tables, await hashed(photoOf(9)), intent, 1)
  expect(await store.entries(JOB)).toEqual([])
  store.close()
  for (const _ of [1, 2]) {
    const again = await pairedStore(tables.name)
    const entries = await again.entries(JOB)
    expect(entries.map(({ entry }) => entry.kind)).toEqual(['photo'])
    again.close()
  }
})

test('the same photo in two slots is kept once and named by two entries', async () => {
  const tables = new Tables(freshName())
  const store = await pairedStore(tables.name, tables)
  await store.recordPhoto(JOB, photoOf(9), PLACE, MARA)
  await store.recordPhoto(JOB, photoOf(9), { ...PLACE, slot: 'after' }, MARA)
  expect(await store.entries(JOB)).toHaveLength(2)
  expect(await tables.photo_chunks.count()).toBe(1)
})

test('a photo that the office lost again is covered no more, until the office says so anew', async () => {
  const tables = new Tables(freshName())
  const store = await pairedStore(tables.name, tables)
  const { body } = (await store.recordPhoto(JOB, photoOf(9), PLACE, MARA)) as Entry<'photo'>
  await store.sync.markPhoto(body.sha256, 'office')
  await tables.photos.update(body.sha256, { covered: true })
  await store.sync.resendPhotos([body.sha256])
  expect(await store.photoRow(body.sha256)).toMatchObject({ where: 'phone', covered: false })
})

test('bytes that read back otherwise than they were written make no entry', async () => {
  const tables = new Tables(freshName())
  const store = await pairedStore(tables.name, tables)
  const flip = (_key: unknown, row: { bytes: ArrayBuffer }) => {
    row.bytes = new Uint8Array([0]).buffer
  }
  tables.photo_chunks.hook('creating', flip as never)
  await expect(store.recordPhoto(JOB, photoOf(9), PLACE, MARA)).rejects.toEqual(new StoreFault('lost'))
  expect(await store.entries(JOB)).toEqual([])
})
