// The plan of a sync, case by case.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { setDigest } from '../../src/core/digest.ts'
import {
  backoffMs,
  batchOf,
  handOver,
  headsToSign,
  type JobHeld,
  type JobSeen,
  logPair,
  reconcileKey,
  stepFor,
  type Waiting,
} from '../../src/core/sync_plan.ts'

const waiting = (seq: number, job = 'j1', device = 'me', length = 400): Waiting => ({
  ...{ job, device, seq, hash: `${job} ${device} ${seq}`, text: 'x'.repeat(length) },
})
const SAME_LOG = logPair('log-1', 'log-1')
const NOTHING_DONE: ReadonlySet<string> = new Set()
const DIGEST = setDigest(['a', 'b'])

function held(change: Partial<JobHeld> = {}): JobHeld {
  const links = [
    { device: 'me', seq: 1, hash: 'a', waiting: false },
    { device: 'them', seq: 4, hash: 'b', waiting: false },
  ]
  return { job: 'j1', links, cursor: 2, letGo: false, ...change }
}
function seen(change: Partial<JobSeen> = {}): JobSeen {
  const heads = [
    { device: 'me', seq: 1, hash: 'a' },
    { device: 'them', seq: 4, hash: 'b' },
  ]
  return { job: 'j1', cursor: 2, more: false, heads, set_digest: DIGEST, ...change }
}

test('a batch holds at most 500 entries and 1.5 million characters, and at least one', () => {
  expect(batchOf(Array.from({ length: 700 }, (_, i) => waiting(i)))).toHaveLength(500)
  expect(batchOf([waiting(1, 'j1', 'me', 900_000), waiting(2, 'j1', 'me', 900_000)])).toHaveLength(1)
  expect(batchOf([waiting(1, 'j1', 'me', 3_000_000)])).toHaveLength(1)
  expect(batchOf([])).toEqual([])
})

test('per job the newest own entry of the batch is signed, and the owed ones', () => {
  const batch = [waiting(1), waiting(2), waiting(1, 'j2'), waiting(9, 'j1', 'them')]
  const owed = [waiting(7, 'j3'), waiting(3, 'j3', 'them')]
  expect(headsToSign(batch, owed, 'me').map(({ hash }) => hash)).toEqual(['j1 me 2', 'j2 me 1', 'j3 me 7'])
})

test('equal digests ask for nothing', () => {
  expect(stepFor(held(), seen(), SAME_LOG, NOTHING_DONE)).toBeUndefined()
})

test('equal sets with a state digest are folded and compared', () => {
  const step = stepFor(held(), seen({ state_digest: 's' }), SAME_LOG, NOTHING_DONE)
  expect(step).toMatchObject({ step: 'compare_state', state_digest: 's' })
})

test.each([
  ['a new log', held(), seen({ set_digest: DIGEST }), logPair('log-1', 'log-2')],
  ['a cursor behind', held(), seen({ cursor: 1 }), SAME_LOG],
  ['an older head', held(), seen({ heads: [{ device: 'them', seq: 3, hash: 'z' }] }), SAME_LOG],
  ['a chain that is gone', held(), seen({ heads: [{ device: 'me', seq: 1, hash: 'a' }] }), SAME_LOG],
  ['other digests with nothing unsent', held(), seen({ set_digest: 'f' }), SAME_LOG],
])('%s is reconciled', (_name, own, theirs, log) => {
  expect(stepFor(own, theirs, log, NOTHING_DONE)?.step).toBe('reconcile')
})

test('a new log is reconciled even while the server has more to send', () => {
  expect(stepFor(held(), seen({ more: true }), logPair('log-1', 'log-2'), NOTHING_DONE)?.step).toBe(
    'reconcile',
  )
})

test('a first log is no changed log', () => {
  expect(logPair('', 'log-1').changed).toBe(false)
})

test.each([
  ['more is coming', held(), seen({ more: true, set_digest: 'f' })],
  [
    'something is unsent',
    held({ links: [{ device: 'me', seq: 1, hash: 'a', waiting: true }] }),
    seen({ set_digest: 'f', heads: [] }),
  ],
  ['the entries were let go', held({ letGo: true, links: [] }), seen({ set_digest: 'f' })],
  ['the round trip moved something', held(), { job: 'j1', cursor: 2, more: false, heads: seen().heads }],
])('while %s nothing is compared', (_name, own, theirs) => {
  expect(stepFor(own, theirs, SAME_LOG, NOTHING_DONE)).toBeUndefined()
})

test('the same pair of digests is reconciled once, then told once, then left alone', () => {
  const key = reconcileKey('j1', 'log-1', DIGEST, 'f')
  const second = stepFor(held(), seen({ set_digest: 'f' }), SAME_LOG, new Set([key]))
  expect(second).toMatchObject({ step: 'report', report: { what: 'set', ours: DIGEST, theirs: 'f' } })
  const told = second?.step === 'report' ? second.key : ''
  expect(stepFor(held(), seen({ set_digest: 'f' }), SAME_LOG, new Set([key, told]))).toBeUndefined()
})

test('another log or another pair is reconciled anew', () => {
  const done = new Set([reconcileKey('j1', 'log-1', DIGEST, 'f')])
  expect(stepFor(held(), seen({ set_digest: 'e' }), SAME_LOG, done)?.step).toBe('reconcile')
  expect(stepFor(held(), seen({ set_digest: 'f' }), logPair('log-2', 'log-2'), done)?.step).toBe('reconcile')
})

test('entries are handed over in the order of their chains', () => {
  fc.assert(
    fc.property(
      fc.shuffledSubarray([1, 2, 3, 4, 5, 6, 7, 8].map((seq) => waiting(seq, 'j1', seq % 2 ? 'a' : 'b'))),
      (texts) => {
        const order = handOver(texts)
        expect(
          [...order].sort((a, b) => (a.device < b.device ? -1 : a.device > b.device ? 1 : a.seq - b.seq)),
        ).toEqual(order)
        expect(order).toHaveLength(texts.length)
      },
    ),
  )
})

test('the wait doubles from a second to a minute and is spread over its upper half', () => {
  expect([1, 2, 3, 10].map((failures) => backoffMs(failures, 1))).toEqual([1_000, 2_000, 4_000, 60_000])
  expect(backoffMs(1, 0)).toBe(500)
})

test('a chain with a hole behind its newest entry is behind, by its count', () => {
  const heads = [
    { device: 'me', seq: 1, hash: 'a', count: 1 },
    { device: 'them', seq: 4, hash: 'b', count: 0 },
  ]
  expect(stepFor(held(), seen({ heads }), SAME_LOG, NOTHING_DONE)).toMatchObject({ step: 'reconcile' })
})

test('another entry in the place of one that was heard is behind, by its hash', () => {
  const heads = [
    { device: 'me', seq: 1, hash: 'a', count: 1 },
    { device: 'them', seq: 4, hash: 'another', count: 1 },
  ]
  expect(stepFor(held(), seen({ heads }), SAME_LOG, NOTHING_DONE)).toMatchObject({ step: 'reconcile' })
})
