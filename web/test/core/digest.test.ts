// Sealing an entry: what is hashed, what is stored, and that any change shows.
import { expect, test } from 'vitest'
import { dumps, type Json } from '../../src/core/canonical.ts'
import { headText, NO_PREV, seal, setDigest, sha256Hex } from '../../src/core/digest.ts'
import type { Draft, Envelope } from '../../src/core/entries.ts'
import { readEntry } from '../../src/core/read_entry.ts'
import { author, JOB } from './writing.ts'

const draft: Draft = { kind: 'place', body: { place: 'bay 2', over: [] } }
const envelope: Envelope = {
  v: 1,
  job: JOB,
  device: '20000000-0000-4000-8000-000000000001',
  seq: 1,
  ...author(1, 'office'),
  at_ms: 1_760_000_000_000,
  mono_ms: 5,
  load: '30000000-0000-4000-8000-000000000001',
  prev: NO_PREV,
}

test('the digest of a text is that of its UTF-8 (FIPS 180-2, appendix B.1)', () => {
  expect(sha256Hex('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
  expect(sha256Hex('é')).toBe(sha256Hex(new Uint8Array([0xc3, 0xa9])))
})

test('a sealed entry is read back from its text as the same entry', () => {
  const { entry, text } = seal(draft, envelope)
  expect(readEntry(text)).toEqual(entry)
  expect(dumps(entry as unknown as Json)).toBe(text)
})

test.each([
  ['seq', { seq: 2 }],
  ['at_ms', { at_ms: 1_760_000_000_001 }],
  ['prev', { prev: '1'.repeat(64) }],
  ['as', { as: ['technician'] }],
])('another %s is another entry', (_, change) => {
  expect(seal(draft, { ...envelope, ...change }).entry.hash).not.toBe(seal(draft, envelope).entry.hash)
})

test('an entry whose text was changed is refused for its hash', () => {
  const changed = seal(draft, envelope).text.replace('bay 2', 'bay 3')
  expect(() => readEntry(changed)).toThrow(expect.objectContaining({ code: 'wrong_hash', field: 'hash' }))
})

test('the digest of a set knows neither order nor number', () => {
  expect(setDigest(['b', 'a', 'b'])).toBe(setDigest(['a', 'b']))
  expect(setDigest([])).toBe(sha256Hex(''))
  expect(setDigest(['a', 'b'])).toBe(sha256Hex('a\nb'))
})

test('what is signed of a head names job, device, number and hash, one a line', () => {
  expect(headText({ job: 'j', device: 'd', seq: 3, hash: 'h' })).toBe('bayleaf-head-1\nj\nd\n3\nh')
})
