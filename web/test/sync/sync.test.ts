// The sync against a server that loses answers, refuses, is put back and lies.
import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { dumps, type Json } from '../../src/core/canonical.ts'
import { entryHash } from '../../src/core/digest.ts'
import type { Entry } from '../../src/core/entries.ts'
import { JOB, MARA, note } from '../store/a_store.ts'
import { phoneAt } from './a_phone.ts'
import { FakeServer } from './fake_server.ts'

const OTHER = '5f0d2c1e-0000-4000-8000-0000000000ee'

function serverWithJob(): FakeServer {
  const server = new FakeServer()
  server.jobs = [JOB]
  return server
}

/** An entry of the office, or of any kind that a later version may have. */
function foreign(seq: number, kind = 'note', v = 1): string {
  const open = {
    ...{ v, job: JOB, device: OTHER, seq, by: OTHER, auth: 'own', as: ['office'], at_ms: seq, mono_ms: 1 },
    ...{ load: OTHER, kind, body: { text: `office ${seq}` }, prev: '0'.repeat(64) },
  }
  return dumps({ ...open, hash: entryHash(open) } as Json)
}

const hashesAt = (server: FakeServer) => server.entries.map(({ hash }) => hash).sort()
const hashesOn = async (phone: Awaited<ReturnType<typeof phoneAt>>) =>
  (await phone.store.entries(JOB)).map(({ entry }) => entry.hash).sort()

test('what was recorded offline reaches the office and is then at the office', async () => {
  const server = serverWithJob()
  const phone = await phoneAt(server)
  await phone.store.append(JOB, [note('a'), note('b')], MARA)
  expect((await phone.store.entries(JOB)).map(({ where }) => where)).toEqual(['phone', 'phone'])
  await phone.sync.syncNow()
  expect((await phone.store.entries(JOB)).map(({ where }) => where)).toEqual(['office', 'office'])
  expect(phone.sync.status.value).toMatchObject({ state: 'idle', onThisPhone: { entries: 0, photos: 0 } })
  expect(server.syncs()[0]?.holds).toEqual({ entries: 2, photos: 0 })
})

test('the head that is signed is the newest entry of its batch, by the key of this phone', async () => {
  const server = serverWithJob()
  const phone = await phoneAt(server)
  const [, last] = await phone.store.append(JOB, [note('a'), note('b')], MARA)
  await phone.sync.syncNow()
  const heads = server.syncs()[0]?.heads ?? []
  expect(heads.map(({ seq, hash }) => ({ seq, hash }))).toEqual([{ seq: 2, hash: last?.hash }])
  expect(heads[0]?.signature).toMatch(/^[0-9a-f]{128}$/)
})

test('after a lost answer the same entries are sent again and stand once on both sides', async () => {
  const server = serverWithJob()
  const phone = await phoneAt(server)
  await phone.store.append(JOB, [note('a')], MARA)
  server.loseNextAnswer = true
  await phone.sync.syncNow()
  expect(phone.sync.status.value).toMatchObject({ state: 'offline', onThisPhone: { entries: 1 } })
  await phone.sync.syncNow()
  expect(server.entries).toHaveLength(1)
  expect(await hashesOn(phone)).toEqual(hashesAt(server))
  expect((await phone.store.unsent()).entries).toBe(0)
})

test('a new job is pulled page by page until there is no more', async () => {
  const server = serverWithJob()
  server.pageSize = 3
  for (let seq = 1; seq <= 8; seq += 1) server.receive(foreign(seq))
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  expect(await hashesOn(phone)).toEqual(hashesAt(server))
  expect((await phone.store.jobs())[0]).toMatchObject({ job: JOB, cursor: 8 })
})

test('pulled entries carry what the server says of their time', async () => {
  const server = serverWithJob()
  server.receive(foreign(1))
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  expect((await phone.store.entries(JOB))[0]).toMatchObject({
    received_ms: server.now_ms,
    offset_ms: 0,
    where: 'office',
  })
})

test('an entry whose words do not fit its hash is not taken in', async () => {
  const server = serverWithJob()
  server.receive(foreign(1).replace('office 1', 'forged 1'))
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  expect(await phone.store.entries(JOB)).toEqual([])
  expect(phone.sync.status.value.state).toBe('offline')
})

test('a refused entry is kept word for word, folds nowhere, blocks nothing, and the one before it is signed', async () => {
  const server = serverWithJob()
  const phone = await phoneAt(server)
  const [first, bad] = await phone.store.append(JOB, [note('a'), note('bad'), note('c')], MARA)
  server.fate.set(bad?.hash ?? '', 'refused')
  await phone.sync.syncNow()
  expect((await phone.store.entries(JOB)).map(({ entry }) => (entry as Entry<'note'>).body.text)).toEqual([
    'a',
    'c',
  ])
  expect((await phone.store.refused()).map(({ text }) => JSON.parse(text).body.text)).toEqual(['bad'])
  expect(phone.sync.status.value).toMatchObject({ refused: 1, onThisPhone: { entries: 0 } })
  expect(server.heads.map(({ hash }) => hash)).toContain(first?.hash)
})

test('what was set aside is said, until the office admits it', async () => {
  const server = serverWithJob()
  const phone = await phoneAt(server)
  const [mine] = await phone.store.append(JOB, [note('a')], MARA)
  server.fate.set(mine?.hash ?? '', 'set_aside')
  await phone.sync.syncNow()
  expect(phone.sync.status.value.setAside).toBe(1)
  const open = { ...JSON.parse(foreign(1, 'admit')), body: { hashes: [mine?.hash], reason: 'seen' } }
  const { hash: _, ...rest } = open
  server.receive(dumps({ ...rest, hash: entryHash(rest) } as Json))
  await phone.sync.syncNow()
  expect(phone.sync.status.value.setAside).toBe(0)
})

test('two phones end with the same entries', async () => {
  const server = serverWithJob()
  const [one, two] = [await phoneAt(server), await phoneAt(server, '5f0d2c1e-0000-4000-8000-0000000000d2')]
  await one.store.append(JOB, [note('one')], MARA)
  await two.store.append(JOB, [note('two')], MARA)
  for (const phone of [one, two, one]) await phone.sync.syncNow()
  expect(await hashesOn(one)).toEqual(hashesAt(server))
  expect(await hashesOn(two)).toEqual(hashesAt(server))
})

test('a server put back from an older copy under a new log is made whole by the phone, with others entries too', async () => {
  const server = serverWithJob()
  const phone = await phoneAt(server)
  const copy = server.copy()
  server.receive(foreign(1))
  await phone.store.append(JOB, [note('a'), note('b')], MARA)
  await phone.sync.syncNow()
  const whole = hashesAt(server)
  server.putBack(copy, 'log-2')
  server.receive(foreign(7))
  await phone.sync.syncNow()
  expect(hashesAt(server)).toEqual([...whole, JSON.parse(foreign(7)).hash].sort())
  expect(await hashesOn(phone)).toEqual(hashesAt(server))
  expect(await phone.store.setting('log')).toBe('log-2')
  expect(server.heads.some(({ device }) => device === OTHER)).toBe(true)
  expect(server.cards).toEqual([{ card: server.card(OTHER), signature: 'seal' }])
})

test('a server behind under the same log is reconciled', async () => {
  const server = serverWithJob()
  const phone = await phoneAt(server)
  const copy = server.copy()
  await phone.store.append(JOB, [note('a')], MARA)
  await phone.sync.syncNow()
  server.putBack(copy)
  await phone.sync.syncNow()
  expect(server.entries).toHaveLength(1)
  expect(phone.sync.status.value.state).toBe('idle')
})

test('a reconcile that was cut off is taken up again', async () => {
  const server = serverWithJob()
  const phone = await phoneAt(server)
  const copy = server.copy()
  await phone.store.append(JOB, [note('a')], MARA)
  await phone.sync.syncNow()
  server.putBack(copy, 'log-2')
  server.instead = ({ path }) => (path === '/api/reconcile' ? { status: 502, body: {} } : undefined)
  await phone.sync.syncNow()
  expect(phone.sync.status.value.state).toBe('offline')
  server.instead = undefined
  await phone.sync.syncNow()
  expect(server.entries).toHaveLength(1)
})

test('a difference that a reconcile cannot mend is told to the office once', async () => {
  const server = serverWithJob()
  server.receive(foreign(1))
  server.lie = (answer) => ({
    ...answer,
    jobs: answer.jobs.map((job) =>
      job.set_digest === undefined ? job : { ...job, set_digest: 'f'.repeat(64) },
    ),
  })
  const phone = await phoneAt(server)
  for (let i = 0; i < 4; i += 1) await phone.sync.syncNow()
  expect(server.reports).toHaveLength(1)
  expect(server.reports[0]).toMatchObject({ job: JOB, what: 'set', theirs: 'f'.repeat(64) })
  expect(server.requests.filter(({ path }) => path === '/api/reconcile')).toHaveLength(1)
})

test('entries of an unknown kind and version are kept, said, and handed on to a server that lost them', async () => {
  const server = serverWithJob()
  server.receive(foreign(1, 'hologram'))
  server.receive(foreign(2, 'note', 2))
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  expect(phone.sync.status.value.unknownMet).toBe(true)
  server.putBack({ entries: [] }, 'log-2')
  await phone.sync.syncNow()
  expect(server.entries).toHaveLength(2)
})

test('a great outbox goes in batches, each with its own head', async () => {
  const server = serverWithJob()
  const phone = await phoneAt(server)
  await phone.store.append(
    JOB,
    Array.from({ length: 1_201 }, (_, i) => note(`n ${i}`)),
    MARA,
  )
  await phone.sync.syncNow()
  expect(server.entries).toHaveLength(1_201)
  expect(
    server
      .syncs()
      .map(({ entries }) => entries.length)
      .slice(0, 3),
  ).toEqual([500, 500, 201])
  expect(server.heads.map(({ seq }) => seq)).toEqual([500, 1_000, 1_201])
})

test('the time of the server is told with each answer', async () => {
  const server = serverWithJob()
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  expect(phone.heard[0]).toBeGreaterThanOrEqual(server.now_ms)
  expect(phone.sync.status.value.heard_ms).toBe(server.now_ms)
})
