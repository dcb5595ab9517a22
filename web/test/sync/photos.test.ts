// Photos on their way to the office, and back to other phones.
import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { sha256Hex } from '../../src/core/digest.ts'
import type { Entry } from '../../src/core/entries.ts'
import { JOB, MARA } from '../store/a_store.ts'
import { phoneAt } from './a_phone.ts'
import { FakeServer } from './fake_server.ts'

const PLACE = { method: '', digest: '', step: '', slot: '', position: '', caption: '' }
type Phone = Awaited<ReturnType<typeof phoneAt>>

async function shot(phone: Phone, seed: number): Promise<Entry<'photo'>> {
  const [bytes, thumb] = [new Uint8Array([0xff, 0xd8, seed]).buffer, new Uint8Array([0xff, seed]).buffer]
  const photo = { bytes, thumb, type: 'image/jpeg', width: 4, height: 3 } as const
  return (await phone.store.recordPhoto(JOB, photo, PLACE, MARA)) as Entry<'photo'>
}

test('entry, thumbnail and bytes reach the office, and the phone says so', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  const { body } = await shot(phone, 1)
  expect(await phone.store.unsent()).toEqual({ entries: 1, photos: 1 })
  await phone.sync.syncNow()
  expect([server.photos, server.thumbs]).toEqual([[body.sha256], [body.thumb]])
  expect(phone.sync.status.value.onThisPhone).toEqual({ entries: 0, photos: 0 })
  expect(await phone.store.photo(body.sha256)).toBeDefined()
})

test('once its photos are sent the phone tells the office that it holds none', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  await shot(phone, 1)
  await phone.sync.syncNow()
  expect(server.syncs().map(({ holds }) => holds.photos)).toEqual([1, 0])
})

test('a refused photo stays on the phone, is said, and holds up no other', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  const [bad, good] = [await shot(phone, 1), await shot(phone, 2)]
  server.refusedPhotos.add(bad.body.sha256)
  await phone.sync.syncNow()
  expect(server.photos).toEqual([good.body.sha256])
  expect(phone.sync.status.value).toMatchObject({
    state: 'refused',
    trouble: { code: 'not_a_photo' },
    onThisPhone: { entries: 0, photos: 1 },
  })
})

test('a photo is not sent twice', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  await shot(phone, 1)
  await phone.sync.syncNow()
  await phone.sync.syncNow()
  expect(server.photos).toHaveLength(1)
})

test("another phone's thumbnail is fetched once, checked by its hash, and kept for offline", async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  const bytes = new Uint8Array([0xff, 0xd8, 9])
  const thumb = sha256Hex(bytes)
  const send = server.transport().send
  let asked = 0
  const answering = await phoneAt({
    ...server,
    upload: server.upload,
    transport: () => ({
      send: async (request) => {
        if (request.path !== `/api/thumbs/${thumb}`) return send(request)
        asked += 1
        return { status: 200, headers: { get: () => null }, bytes: bytes.buffer }
      },
    }),
  } as FakeServer)
  expect(await phone.sync.fetchThumb(thumb)).toBeUndefined()
  expect((await answering.sync.fetchThumb(thumb))?.size).toBe(3)
  expect((await answering.sync.fetchThumb(thumb))?.size).toBe(3)
  expect(asked).toBe(1)
})

test('with the shop network off no picture is fetched', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  await phone.sync.setShopNetwork(false)
  const asked = server.requests.length
  expect(await phone.sync.fetchPhoto('a'.repeat(64))).toBeUndefined()
  expect(server.requests).toHaveLength(asked)
})
