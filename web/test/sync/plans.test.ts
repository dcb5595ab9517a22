// Response sets of pinned plans: fetched once the office tells of them, hashed as read back, let go with their plan.
import 'fake-indexeddb/auto'
import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { sha256Hex } from '../../src/core/digest.ts'
import { freshName, JOB, pairedStore } from '../store/a_store.ts'
import { phoneAt } from './a_phone.ts'
import { FakeServer } from './fake_server.ts'

/** The fake says everything as JSON; the phone keeps bytes, whatever they are. */
const CONTENT = 'a packed response set'
const BYTES = new TextEncoder().encode(JSON.stringify(CONTENT))
const SHA = sha256Hex(BYTES)
const plan = {
  ...{ job: JOB, method: 'removal', zone: 'upper', plan: 'ab'.repeat(32), sha256: SHA },
  ...{ bytes: BYTES.byteLength, name: 'upper joint', sentence: 'Workable in 13 min (9-20).' },
}

function telling(plans: readonly unknown[], version = 'b2'): FakeServer {
  const server = new FakeServer()
  tell(server, plans, version)
  server.instead = ({ path }) =>
    path === `/api/heat/responses/${SHA}` ? { status: 200, body: CONTENT } : undefined
  return server
}

function tell(server: FakeServer, plans: readonly unknown[], version: string): void {
  server.bundle = { ...server.bundle, version, plans } as FakeServer['bundle']
}

const asked = (server: FakeServer) =>
  server.requests.filter(({ path }) => path.startsWith('/api/heat/responses')).length

test('a response set is fetched once and is here without the network', async () => {
  const server = telling([plan, { ...plan, zone: 'post' }])
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  await phone.sync.syncNow()
  expect(asked(server)).toBe(1)
  expect((await phone.store.plans()).map(({ zone, here }) => [zone, here])).toEqual([
    ['post', true],
    ['upper', true],
  ])
})

test('other bytes than were told of are not kept: the plan stays not here yet, and is asked for again', async () => {
  const server = telling([plan])
  const good = server.instead
  server.instead = ({ path }) =>
    path.startsWith('/api/heat/responses') ? { status: 200, body: 'cut' } : undefined
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  expect(await phone.store.plans()).toEqual([{ ...plan, here: false }])
  server.instead = good
  await phone.sync.syncNow()
  expect(await phone.store.plans()).toEqual([{ ...plan, here: true }])
})

test('a plan that was unpinned is let go with its set', async () => {
  const server = telling([plan])
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  tell(server, [], 'b3')
  await phone.sync.syncNow()
  expect(await phone.store.plans()).toEqual([])
  expect(await phone.store.planSet(SHA)).toBeUndefined()
})

test('a set is kept as it was packed, and read as text', async () => {
  const store = await pairedStore(freshName())
  const packed = Uint8Array.from(gzipSync('{"form":2}'))
  const sha256 = sha256Hex(packed)
  await store.sync.keepPlanSet(sha256, packed.buffer)
  expect(await store.planSet(sha256)).toBe('{"form":2}')
})
