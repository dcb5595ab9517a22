// Makers' instructions: fetched once the office tells of them, hashed as read back, let go when it tells no more.
import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { sha256Hex } from '../../src/core/digest.ts'
import { JOB } from '../store/a_store.ts'
import { phoneAt } from './a_phone.ts'
import { FakeServer } from './fake_server.ts'

/** The fake says everything as JSON; the phone keeps bytes, whatever they are. */
const CONTENT = '%PDF-1.7 invented %%EOF'.repeat(30_000)
const BYTES = new TextEncoder().encode(JSON.stringify(CONTENT))
const SHA = sha256Hex(BYTES)
const paper = { sha256: SHA, name: 'Instruction 7', job: JOB, method: '', bytes: BYTES.byteLength }

function telling(papers: readonly unknown[], version = 'b2'): FakeServer {
  const server = new FakeServer()
  tell(server, papers, version)
  server.instead = ({ path }) => (path === `/api/papers/${SHA}` ? { status: 200, body: CONTENT } : undefined)
  return server
}

function tell(server: FakeServer, papers: readonly unknown[], version: string): void {
  server.bundle = { ...server.bundle, version, papers } as FakeServer['bundle']
}

const asked = (server: FakeServer) =>
  server.requests.filter(({ path }) => path.startsWith('/api/papers')).length

test('an instruction is fetched once, in chunks, and is here whole without the network', async () => {
  const server = telling([paper])
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  await phone.sync.syncNow()
  server.down = true
  expect(asked(server)).toBe(1)
  expect(await phone.store.papers()).toEqual([{ ...paper, here: true }])
  const kept = await phone.store.paper(SHA)
  expect(kept?.type).toBe('application/pdf')
  expect(sha256Hex(new Uint8Array((await kept?.arrayBuffer()) ?? new ArrayBuffer()))).toBe(SHA)
})

test('other bytes than were told of are not kept, and are asked for again', async () => {
  const server = telling([paper])
  const good = server.instead
  server.instead = ({ path }) => (path.startsWith('/api/papers') ? { status: 200, body: 'cut' } : undefined)
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  expect(await phone.store.papers()).toEqual([{ ...paper, here: false }])
  server.instead = good
  await phone.sync.syncNow()
  expect(await phone.store.papers()).toEqual([{ ...paper, here: true }])
})

test('one that was taken away meanwhile holds up nothing', async () => {
  const server = telling([paper])
  server.instead = undefined
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  expect(phone.sync.status.value.state).toBe('idle')
})

test('what the office tells of no more is let go with its bytes', async () => {
  const server = telling([paper])
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  tell(server, [], 'b3')
  await phone.sync.syncNow()
  expect(await phone.store.papers()).toEqual([])
  expect(await phone.store.paper(SHA)).toBeUndefined()
})
