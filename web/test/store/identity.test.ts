// The phone's key, and a store that was lost.
import 'fake-indexeddb/auto'
import { hexToBytes, utf8ToBytes } from '@noble/hashes/utils.js'
import { expect, test } from 'vitest'
import { openStore } from '../../src/store/index.ts'
import { memoryMarker } from '../../src/store/marker.ts'
import { DEVICE, freshName, pairedStore } from './a_store.ts'

test('the key signs as raw r||s, survives a restart and cannot be taken out', async () => {
  const name = freshName()
  const first = await pairedStore(name)
  const point = first.identity()?.public_key ?? ''
  first.close()
  const again = await pairedStore(name)
  const me = again.identity()
  expect(me?.public_key).toBe(point)
  expect(point).toMatch(/^04[0-9a-f]{128}$/)
  const signature = (await me?.sign('bayleaf-head-1')) ?? ''
  expect(signature).toMatch(/^[0-9a-f]{128}$/)
  const curve = { name: 'ECDSA', namedCurve: 'P-256' }
  const key = await crypto.subtle.importKey('raw', new Uint8Array(hexToBytes(point)), curve, true, ['verify'])
  const hash = { name: 'ECDSA', hash: 'SHA-256' }
  const [sig, text] = [new Uint8Array(hexToBytes(signature)), new Uint8Array(utf8ToBytes('bayleaf-head-1'))]
  expect(await crypto.subtle.verify(hash, key, sig, text)).toBe(true)
  expect(again.sync.key()?.keys.privateKey.extractable).toBe(false)
})

test('an empty store on a phone that was paired is said to be lost', async () => {
  const store = await openStore(freshName(), { marker: memoryMarker(DEVICE) })
  expect(store.health.value).toBe('lost')
})

test('an empty store on a phone that never was paired is simply new', async () => {
  const store = await openStore(freshName(), { marker: memoryMarker() })
  expect(store.health.value).toBe('ok')
  expect(store.identity()?.state).toBe('key_made')
})
