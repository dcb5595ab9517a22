// Appending: chains stay whole whatever tabs, kills and closed connections do.
import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { entryHash } from '../../src/core/digest.ts'
import type { Entry } from '../../src/core/entries.ts'
import { APPEND_STORES, appendOnce } from '../../src/store/append.ts'
import { StoreFault } from '../../src/store/index.ts'
import { strictly } from '../../src/store/strict.ts'
import { Tables } from '../../src/store/tables.ts'
import { DEVICE, freshName, JOB, MARA, note, pairedStore } from './a_store.ts'

const entriesOf = async (store: Awaited<ReturnType<typeof pairedStore>>) =>
  (await store.entries(JOB)).map((stored) => stored.entry)

function expectWholeChain(entries: readonly Entry[], length: number) {
  const bySeq = [...entries].sort((a, b) => a.seq - b.seq)
  expect(bySeq.map((entry) => entry.seq)).toEqual(Array.from({ length }, (_, i) => i + 1))
  bySeq.forEach((entry, i) => {
    expect(entry.prev).toBe(i === 0 ? '0'.repeat(64) : bySeq[i - 1]?.hash)
  })
}

test('two tabs appending 200 entries each at once fork nothing and lose nothing', async () => {
  const name = freshName()
  const [one, two] = [await pairedStore(name), await pairedStore(name)]
  const appends = Array.from({ length: 200 }, (_, i) => [
    one.append(JOB, [note(`one ${i}`)], MARA),
    two.append(JOB, [note(`two ${i}`)], MARA),
  ]).flat()
  await Promise.all(appends)
  one.close()
  two.close()
  const again = await pairedStore(name)
  const entries = await entriesOf(again)
  expectWholeChain(entries, 400)
  expect(new Set(entries.map((entry) => (entry as Entry<'note'>).body.text)).size).toBe(400)
})

test('several drafts of one append stand in one chain and one transaction', async () => {
  const store = await pairedStore()
  const made = await store.append(JOB, [note('a'), note('b'), note('c')], MARA)
  expectWholeChain(made, 3)
  expect(await store.unsent()).toEqual({ entries: 3, photos: 0 })
})

test('a draft can name the entry made before it in the same append', async () => {
  const store = await pairedStore()
  const about = (made: readonly Entry[]) => {
    const draft = note('about the first')
    return { ...draft, body: { ...draft.body, about: made.map((entry) => entry.hash) } }
  }
  const [first, second] = await store.append(JOB, [note('first'), about], MARA)
  expect((second as Entry<'note'>).body.about).toEqual([first?.hash])
})

test('an entry is kept under its own hash, with its text word for word', async () => {
  const store = await pairedStore()
  const [made] = await store.append(JOB, [note('Öl, "dicht"')], { ...MARA, as: ['technician', 'a'] })
  const [stored] = await store.entries(JOB)
  const { hash, ...rest } = JSON.parse(stored?.text ?? '{}')
  expect(entryHash(rest)).toBe(hash)
  expect(hash).toBe(made?.hash)
  expect(rest.as).toEqual(['a', 'technician'])
  expect(stored?.where).toBe('phone')
})

test('a draft that cannot be made canonical leaves nothing of its append behind', async () => {
  const store = await pairedStore()
  await expect(store.append(JOB, [note('good'), note('half \ud800')], MARA)).rejects.toThrow()
  expect(await store.entries(JOB)).toEqual([])
  const [next] = await store.append(JOB, [note('next')], MARA)
  expect(next?.seq).toBe(1)
})

test('a store that the browser closed is opened again and the record is kept', async () => {
  const tables = new Tables(freshName())
  const store = await pairedStore(tables.name, tables)
  await store.append(JOB, [note('before')], MARA)
  tables.backendDB().close()
  await store.append(JOB, [note('after')], MARA)
  expectWholeChain(await entriesOf(store), 2)
  expect(store.health.value).toBe('ok')
})

test('many appends that meet a closed store are all kept, in one chain', async () => {
  const tables = new Tables(freshName())
  const store = await pairedStore(tables.name, tables)
  tables.close({ disableAutoOpen: false })
  await Promise.all(Array.from({ length: 20 }, (_, i) => store.append(JOB, [note(`n ${i}`)], MARA)))
  expectWholeChain(await entriesOf(store), 20)
})

test('a store that was cleared while open is lost, and no chain is begun anew in it', async () => {
  const tables = new Tables(freshName())
  const store = await pairedStore(tables.name, tables)
  await store.append(JOB, [note('before')], MARA)
  await new Promise((resolve) => {
    indexedDB.deleteDatabase(tables.name).onsuccess = resolve
  })
  for (const text of ['after', 'and again']) {
    await expect(store.append(JOB, [note(text)], MARA)).rejects.toEqual(new StoreFault('lost'))
  }
  expect(store.health.value).toBe('lost')
})

test('a commit whose word was lost is found by the second try and not made twice', async () => {
  const tables = new Tables(freshName())
  const read = () => ({ at_ms: 1, mono_ms: 1, load: DEVICE })
  const attempt = appendOnce(read, { job: JOB, device: DEVICE, who: MARA, drafts: [note('once')] })
  await tables.open()
  const run = () => strictly(tables, APPEND_STORES, attempt)
  const [first] = await run()
  const [second] = await run()
  expect(second).toEqual(first)
  expect(await tables.entries.count()).toBe(1)
})

test('a phone without room says full, keeps nothing of the record and goes on when there is room', async () => {
  const store = await pairedStore()
  const plain = IDBObjectStore.prototype.put
  IDBObjectStore.prototype.put = () => {
    throw new DOMException('no room', 'QuotaExceededError')
  }
  await expect(store.append(JOB, [note('too much')], MARA)).rejects.toEqual(new StoreFault('full'))
  expect(store.health.value).toBe('full')
  IDBObjectStore.prototype.put = plain
  await store.append(JOB, [note('fits')], MARA)
  expect(store.health.value).toBe('ok')
  expectWholeChain(await entriesOf(store), 1)
})

test('every writing transaction asks for strict durability', async () => {
  const asked: (string | undefined)[] = []
  const plain = IDBDatabase.prototype.transaction
  IDBDatabase.prototype.transaction = function (stores, mode, options) {
    if (mode === 'readwrite') asked.push(options?.durability)
    return plain.call(this, stores, mode, options)
  }
  const store = await pairedStore()
  await store.append(JOB, [note('kept')], MARA)
  IDBDatabase.prototype.transaction = plain
  expect(asked.length).toBeGreaterThan(0)
  expect(new Set(asked)).toEqual(new Set(['strict']))
})

test('another tab hears which job changed and reads the new entry', async () => {
  const name = freshName()
  const [one, two] = [await pairedStore(name), await pairedStore(name)]
  expect(await two.entries(JOB)).toEqual([])
  const heard = new Promise<string>((resolve) => two.onChange(resolve))
  await one.append(JOB, [note('news')], MARA)
  expect(await heard).toBe(JOB)
  expect(await two.entries(JOB)).toHaveLength(1)
  one.close()
  two.close()
})
