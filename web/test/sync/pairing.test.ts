// Pairing, the hand-in file, and requests as they leave the phone.
import 'fake-indexeddb/auto'
import { gunzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { sha256Hex } from '../../src/core/digest.ts'
import { openStore } from '../../src/store/index.ts'
import { memoryMarker } from '../../src/store/marker.ts'
import { handInOf } from '../../src/sync/hand_in.ts'
import { fetchTransport, startPairing } from '../../src/sync/index.ts'
import { DEVICE, freshName, JOB, MARA, note, pairedStore } from '../store/a_store.ts'
import { FakeServer } from './fake_server.ts'

const CARD = JSON.stringify({
  ...{ v: 1, device: DEVICE, public_key: '04', name: 'Bay 2', person: MARA.by, roles: ['technician'] },
  ...{ qualifications: ['bonding'], issued_ms: 1 },
})
const me = (state: string) => ({
  status: 200,
  body: {
    device: DEVICE,
    state,
    check: '0427',
    name: 'Bay 2',
    seal_public: 'seal',
    ...(state === 'paired' ? { card: CARD, card_signature: 'sig' } : {}),
  },
})
const no = (status: number, code: string) => ({ status, body: { code, message: `${code}.`, field: '' } })

async function unpaired(server: FakeServer, marker = memoryMarker()) {
  const name = freshName()
  const store = await openStore(name, { marker })
  return { store, name, marker, pairing: startPairing(store, server.transport()) }
}

test('a typed code is spent once, the digits shown, and the card kept when the office confirms', async () => {
  const server = new FakeServer()
  const { store, pairing, marker } = await unpaired(server)
  server.instead = () => me('waiting')
  await pairing.claim(' abcd-2345 ', ' Bay 2 ')
  expect(server.requests[0]?.json).toEqual({
    code: 'ABCD2345',
    name: 'Bay 2',
    public_key: store.identity()?.public_key,
  })
  expect(pairing.view.value).toEqual({ at: 'waiting', check: '0427' })
  expect(marker.read()).toBe('')
  server.instead = () => me('paired')
  await pairing.poll()
  pairing.stop()
  expect(pairing.view.value).toEqual({ at: 'paired' })
  expect(store.identity()).toMatchObject({
    device: DEVICE,
    person: MARA.by,
    roles: ['technician'],
    state: 'paired',
  })
  expect(marker.read()).toBe(DEVICE)
})

test('a phone that was killed while waiting goes on waiting', async () => {
  const server = new FakeServer()
  const { store, name, pairing } = await unpaired(server)
  server.instead = () => me('waiting')
  await pairing.claim('ABCD2345', 'Bay 2')
  pairing.stop()
  store.close()
  const again = startPairing(await openStore(name, { marker: memoryMarker() }), server.transport())
  expect(again.view.value).toEqual({ at: 'waiting', check: '0427' })
  server.down = true
  await again.poll()
  expect(again.view.value.at).toBe('waiting')
  again.stop()
})

test('a wrong code is said in the words of the server and can be typed again', async () => {
  const server = new FakeServer()
  const { pairing } = await unpaired(server)
  server.instead = () => no(403, 'expired_code')
  await pairing.claim('ABCD2345', 'Bay 2')
  expect(pairing.view.value).toEqual({ at: 'refused', code: 'expired_code', message: 'expired_code.' })
  server.instead = () => me('waiting')
  await pairing.claim('ABCD2346', 'Bay 2')
  expect(pairing.view.value.at).toBe('waiting')
  pairing.stop()
})

test('a demo pairs by itself; a server that is none is left to the typed code', async () => {
  const server = new FakeServer()
  const { pairing } = await unpaired(server)
  expect(await pairing.pairDemo()).toBe(false)
  server.instead = ({ path }) => (path === '/api/demo/pair' ? me('paired') : undefined)
  expect(await pairing.pairDemo()).toBe(true)
})

test('the hand-in holds all unsent records, refused ones, heads, card and photos, and spends none of them', async () => {
  const store = await pairedStore()
  const key = store.sync.key()
  if (key !== undefined) await store.sync.saveKey({ ...key, card: CARD, card_signature: 'sig' })
  const photo = { bytes: new Uint8Array([0xff, 1, 2]).buffer, thumb: new Uint8Array([0xff, 9]).buffer }
  const place = { method: '', digest: '', step: '', slot: '', position: '', caption: '' }
  await store.append(JOB, [note('unsent')], MARA)
  await store.recordPhoto(JOB, { ...photo, type: 'image/jpeg', width: 1, height: 1 }, place, MARA)
  const bytes = Buffer.from(await (await handInOf(store, 77)).arrayBuffer())
  const [form, words = ''] = bytes.toString('latin1').split('\n')
  const parsed = JSON.parse(Buffer.from(words, 'latin1').toString('utf8'))
  expect(form).toBe('bayleaf-handin-1')
  expect(parsed).toMatchObject({
    device: DEVICE,
    made_ms: 77,
    cards: [{ card: CARD, signature: 'sig' }],
    refused: [],
  })
  expect(parsed.entries).toHaveLength(2)
  expect(parsed.heads).toMatchObject([{ job: JOB, device: DEVICE, seq: 2 }])
  expect(parsed.photos).toEqual([
    { sha256: sha256Hex(new Uint8Array(photo.bytes)), type: 'image/jpeg', bytes: 3, job: JOB },
  ])
  expect(bytes.subarray(-5)).toEqual(Buffer.from([0xff, 1, 2, 0xff, 9]))
  expect(await store.unsent()).toEqual({ entries: 2, photos: 1 })
})

async function leaving(json: unknown): Promise<{ init: RequestInit; body: string }> {
  const seen: RequestInit[] = []
  const transport = fetchTransport(async (_path, init) => {
    seen.push(init)
    return new Response('{}')
  })
  await transport.send({ method: 'POST', path: '/api/sync', json })
  const [init = {}] = seen
  const isText = typeof init.body === 'string'
  return {
    init,
    body: isText ? (init.body as string) : gunzipSync(Buffer.from(init.body as ArrayBuffer)).toString(),
  }
}

test('a large request leaves gzipped and says so, a small one plain', async () => {
  const large = { entries: Array.from({ length: 200 }, (_, i) => `entry ${i}`) }
  const zipped = await leaving(large)
  expect(JSON.parse(zipped.body)).toEqual(large)
  expect(zipped.init.headers).toMatchObject({
    'Content-Encoding': 'gzip',
    'Content-Type': 'application/json',
  })
  const plain = await leaving({ a: 1 })
  expect(plain.body).toBe('{"a":1}')
  expect(plain.init.headers).not.toHaveProperty('Content-Encoding')
})

test('no answer at all is a fault of the wire with the path in its words', async () => {
  const transport = fetchTransport(async () => {
    throw new TypeError('Failed to fetch')
  })
  await expect(transport.send({ method: 'GET', path: '/api/bundle' })).rejects.toThrow('/api/bundle')
})
