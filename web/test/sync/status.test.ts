// What the phone says of its sync, and when it tries.
import 'fake-indexeddb/auto'
import { expect, test, vi } from 'vitest'
import { JOB, MARA, note } from '../store/a_store.ts'
import { phoneAt } from './a_phone.ts'
import { FakeServer, type Request } from './fake_server.ts'

const said = (status: number, code: string) => ({ status, body: { code, message: `${code}.`, field: '' } })
const forPath = (path: string, answer: { status: number; body: unknown }) => (request: Request) =>
  request.path === path ? answer : undefined

test('without an answer the phone is offline, waits longer each time, and returns at once with the network', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  server.down = true
  await phone.sync.syncNow()
  const first = phone.occasions.retryMs() ?? 0
  await phone.sync.syncNow()
  expect(phone.sync.status.value.state).toBe('offline')
  expect(phone.occasions.retryMs()).toBe(2 * first)
  server.down = false
  phone.occasions.due('online')
  await phone.sync.syncNow()
  expect(phone.sync.status.value.state).toBe('idle')
  expect(phone.occasions.retryMs()).toBeUndefined()
})

test('appends are followed by one sync of their own, a moment later', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  await phone.store.append(JOB, [note('a')], MARA)
  await phone.store.append(JOB, [note('b')], MARA)
  expect(phone.occasions.look()).toBe(1)
  await vi.waitFor(() => expect(server.entries).toHaveLength(2))
  expect(server.syncs()).toHaveLength(1)
})

test('while a failure waits out its time an append counts, and asks nothing', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  server.down = true
  await phone.sync.syncNow()
  server.down = false
  await phone.store.append(JOB, [note('a')], MARA)
  phone.occasions.look()
  await vi.waitFor(() => expect(phone.sync.status.value.onThisPhone.entries).toBe(1))
  expect(server.requests).toEqual([])
})

test('a beat does not cut a wait short', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  server.down = true
  await phone.sync.syncNow()
  server.down = false
  const wait = phone.occasions.retryMs()
  phone.occasions.due('beat')
  expect(phone.occasions.retryMs()).toBe(wait)
  expect(server.requests).toEqual([])
})

test('with the shop network switched off nothing is asked, and the switch outlives a restart', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  await phone.sync.setShopNetwork(false)
  const asked = server.requests.length
  await phone.sync.syncNow()
  expect(server.requests).toHaveLength(asked)
  expect(phone.sync.status.value).toMatchObject({ state: 'offline', shopNetwork: false })
  const again = await phoneAt(server, undefined, phone.store)
  await again.sync.syncNow()
  expect(again.sync.status.value.shopNetwork).toBe(false)
  await again.sync.setShopNetwork(true)
  expect(again.sync.status.value).toMatchObject({ state: 'idle', shopNetwork: true })
})

test('a lost login is renewed by the key and the request said again', async () => {
  const server = new FakeServer()
  let signedIn = false
  server.instead = ({ path, json }) => {
    if (path === '/api/door/challenge') return { status: 200, body: { nonce: 'n1' } }
    if (path === '/api/door/renew') {
      signedIn = (json as { signature: string }).signature.length === 128
      return { status: 200, body: {} }
    }
    return signedIn ? undefined : said(401, 'no_login')
  }
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  expect(phone.sync.status.value.state).toBe('idle')
})

test('a revoked phone says so, keeps its records and asks no more, over a restart too', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  await phone.store.append(JOB, [note('kept')], MARA)
  server.instead = forPath('/api/sync', said(403, 'revoked_device'))
  await phone.sync.syncNow()
  expect(phone.sync.status.value).toMatchObject({ state: 'revoked', onThisPhone: { entries: 1 } })
  const asked = server.requests.length
  const again = await phoneAt(server, undefined, phone.store)
  await again.sync.syncNow()
  expect(again.sync.status.value.state).toBe('revoked')
  expect(server.requests).toHaveLength(asked)
})

test.each([
  [said(409, 'update_needed'), 'update_needed'],
  [said(400, 'broken_request'), 'refused'],
  [said(500, 'fault'), 'offline'],
])('the answer %j is said as %s', async (answer, state) => {
  const server = new FakeServer()
  server.instead = forPath('/api/sync', answer)
  const phone = await phoneAt(server)
  await phone.sync.syncNow()
  expect(phone.sync.status.value.state).toBe(state)
})

test('another store under this address is said, and nothing is thrown away', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  await phone.store.append(JOB, [note('old')], MARA)
  server.instead = ({ path }) =>
    path.startsWith('/api/door') ? said(404, 'unknown_device') : said(401, 'no_login')
  await phone.sync.syncNow()
  expect(phone.sync.status.value.state).toBe('started_anew')
  expect(await phone.store.entries(JOB)).toHaveLength(1)
})

test('a page that is no answer of the shop, as of a wireless login, counts as offline', async () => {
  const server = new FakeServer()
  const phone = await phoneAt({
    transport: () => ({
      send: async () => ({
        status: 403,
        headers: { get: () => null },
        bytes: new TextEncoder().encode('<html>Please pay</html>').buffer,
      }),
    }),
  } as unknown as FakeServer)
  await phone.sync.syncNow()
  expect(phone.sync.status.value.state).toBe('offline')
  expect(server.requests).toEqual([])
})

test('two calls at once are one sync', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  await Promise.all([phone.sync.syncNow(), phone.sync.syncNow()])
  expect(server.syncs()).toHaveLength(1)
})

test('a phone that nobody paired asks nothing', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  const key = phone.store.sync.key()
  if (key !== undefined) await phone.store.sync.saveKey({ ...key, state: 'key_made' })
  await phone.sync.syncNow()
  expect(phone.sync.status.value.state).toBe('not_paired')
  expect(server.requests).toEqual([])
})

test('the bundle is fetched once for each name that the server gives it', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  const fetched = () => server.requests.filter(({ path }) => path === '/api/bundle').length
  await phone.sync.syncNow()
  await phone.sync.syncNow()
  expect(fetched()).toBe(1)
  server.bundle = {
    ...server.bundle,
    version: 'b2',
    people: [{ id: 'p', name: 'Pim Reed', roles: [], qualifications: [] }] as never,
  }
  await phone.sync.syncNow()
  expect(fetched()).toBe(2)
  expect((await phone.store.people()).map(({ name }) => name)).toEqual(['Pim Reed'])
})

test('a bundle that did not arrive is asked for again', async () => {
  const server = new FakeServer()
  const phone = await phoneAt(server)
  server.instead = forPath('/api/bundle', said(503, 'fault'))
  await phone.sync.syncNow()
  server.instead = undefined
  await phone.sync.syncNow()
  expect(phone.sync.status.value.state).toBe('idle')
  expect(await phone.store.setting('bundle')).toBe('b1')
})

test('a server that says update is heard, and the phone says update needed', async () => {
  const server = new FakeServer()
  server.jobs = [JOB]
  server.lie = (answer) => ({ ...answer, update: true })
  const phone = await phoneAt(server)
  await phone.store.append(JOB, [note('heard')], MARA)
  await phone.sync.syncNow()
  expect(phone.sync.status.value).toMatchObject({ state: 'update_needed', onThisPhone: { entries: 0 } })
})
