// Letting go: what a phone keeps, and until when.
import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import type { Entry } from '../../src/core/entries.ts'
import { Tables } from '../../src/store/tables.ts'
import type { PreparedPhoto } from '../../src/store/types.ts'
import { freshName, JOB, MARA, note, pairedStore } from './a_store.ts'

const DAY_MS = 24 * 3_600_000
const FILED_MS = 1_700_000_000_000
const PLACE = { method: '', digest: '', step: '', slot: '', position: '', caption: '' }
const PHOTO: PreparedPhoto = {
  ...{ bytes: new Uint8Array([0xff, 1, 2]).buffer, thumb: new Uint8Array([0xff]).buffer },
  ...{ type: 'image/jpeg', width: 4, height: 3 },
}

/** A phone with one record and one photo, all at the office, whose job was heard to be filed. */
async function filedJob(filed_heard_ms = FILED_MS) {
  const tables = new Tables(freshName())
  const store = await pairedStore(tables.name, tables)
  const [entry] = await store.append(JOB, [note('seen')], MARA)
  const { body } = (await store.recordPhoto(JOB, PHOTO, PLACE, MARA)) as Entry<'photo'>
  await tables.outbox.clear()
  await store.sync.markPhoto(body.sha256, 'office')
  await tables.jobs.put({ job: JOB, cursor: 2, gone: false, filed_heard_ms, let_go: false })
  return { tables, store, entry: entry as Entry, sha256: body.sha256 }
}

test('entries are kept until 30 days after filing, and the head of the chain after that', async () => {
  const { tables, store } = await filedJob()
  await store.sync.letGo(FILED_MS + 30 * DAY_MS)
  expect(await tables.entries.count()).toBe(2)
  await store.sync.letGo(FILED_MS + 30 * DAY_MS + 1)
  expect(await tables.entries.count()).toBe(0)
  const [next] = await store.append(JOB, [note('late')], MARA)
  expect(next?.seq).toBe(3)
})

test('what is unsent or was refused is never let go', async () => {
  const { tables, store, entry } = await filedJob()
  await tables.outbox.put({ job: JOB, device: entry.device, seq: entry.seq, hash: entry.hash })
  await store.sync.letGo(FILED_MS + 90 * DAY_MS)
  expect(await tables.entries.count()).toBe(2)
  await tables.outbox.clear()
  const fate = { fate: 'refused', code: 'broken_body', message: '', field: '' } as const
  await tables.fates.put({ ...fate, hash: entry.hash, job: JOB, at_ms: 1, seen: true })
  await store.sync.letGo(FILED_MS + 90 * DAY_MS)
  expect(await tables.entries.count()).toBe(2)
})

test('a job that is not filed keeps all', async () => {
  const { tables, store, sha256 } = await filedJob(0)
  await tables.photos.update(sha256, { covered: true })
  await store.sync.letGo(FILED_MS + 900 * DAY_MS)
  expect([await tables.entries.count(), await tables.photo_chunks.count()]).toEqual([2, 1])
})

test('the bytes of a photo go once a backup or the dossier covers them, and only from the office', async () => {
  const { tables, store, sha256 } = await filedJob()
  await store.sync.letGo(FILED_MS + 1)
  expect(await tables.photo_chunks.count()).toBe(1)
  await tables.photos.update(sha256, { covered: true, where: 'phone' })
  await store.sync.letGo(FILED_MS + 1)
  expect(await tables.photo_chunks.count()).toBe(1)
  await tables.photos.update(sha256, { where: 'office' })
  await store.sync.letGo(FILED_MS + 1)
  expect(await tables.photo_chunks.count()).toBe(0)
})

test('screens are told only when something went', async () => {
  const { store } = await filedJob()
  const told: string[] = []
  store.onChange((job) => told.push(job))
  await store.sync.letGo(FILED_MS + 30 * DAY_MS)
  expect(told).toEqual([])
  await store.sync.letGo(FILED_MS + 30 * DAY_MS + 1)
  expect(told).toEqual([''])
  expect((await store.jobs()).map((row) => row.let_go)).toEqual([true])
})
