// What the store tests share: a fresh store in a fake IndexedDB, an author, drafts.
import 'fake-indexeddb/auto'
import type { Author, Draft } from '../../src/core/entries.ts'
import { openStore, type PhoneStore } from '../../src/store/index.ts'
import { memoryMarker } from '../../src/store/marker.ts'
import { Tables } from '../../src/store/tables.ts'

export const JOB = '5f0d2c1e-0000-4000-8000-000000000001'
export const DEVICE = '5f0d2c1e-0000-4000-8000-00000000000d'
export const MARA: Author = {
  by: '5f0d2c1e-0000-4000-8000-00000000000a',
  auth: 'own',
  as: ['technician'],
}

export const freshName = () => `store-${crypto.randomUUID()}`

export async function pairedStore(name = freshName(), tables = new Tables(name)): Promise<PhoneStore> {
  const store = await openStore(name, { marker: memoryMarker(), tables })
  const key = store.sync.key()
  if (key === undefined) throw new Error('a store that is open has made its key')
  if (key.state !== 'paired') await store.sync.saveKey({ ...key, device: DEVICE, state: 'paired' })
  return store
}

export function note(text: string): Draft<'note'> {
  return { kind: 'note', body: { text, method: '', digest: '', step: '', about: [] } }
}
