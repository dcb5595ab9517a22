/** Reconciling one job with the server: each says what the other lacks, until neither lacks anything. */

import { setDigest } from '../core/digest.ts'
import { handOver, isReconciled, type Mismatch, PROTOCOL } from '../core/sync_plan.ts'
import { type Desk, exchange, resendPhotos } from './exchange.ts'
import { cardRowOf, pulledOf, type ReconcileAnswer, signedHeadsOf } from './wire.ts'

const ROUNDS_MAX = 40

/** Returns the mismatch that is left when both sides lack nothing and yet differ. */
export async function reconcile(desk: Desk, job: string): Promise<Mismatch | undefined> {
  for (let round = 0; round < ROUNDS_MAX; round += 1) {
    const ours = await hashesOf(desk, job)
    const answer = await ask(desk, job, ours)
    await takeAnswer(desk, job, answer)
    await lendFiles(desk, answer)
    if (isReconciled(answer)) return settle(desk, job, setDigest(ours), answer)
    await fillServer(desk, job, answer.missing_here)
  }
  return { job, what: 'set', ours: setDigest(await hashesOf(desk, job)), theirs: 'no end of reconciling' }
}

async function hashesOf({ store }: Desk, job: string): Promise<string[]> {
  return (await store.sync.links(job)).map((link) => link.hash).sort()
}

async function ask({ store, door }: Desk, job: string, hashes: readonly string[]): Promise<ReconcileAnswer> {
  const held = await store.sync.held()
  const json = {
    protocol: PROTOCOL,
    log: String((await store.setting('log')) ?? ''),
    job,
    hashes,
    digest: setDigest(hashes),
    photos: await store.sync.photosHeld(job),
    ...held,
  }
  return door.json<ReconcileAnswer>({ method: 'POST', path: '/api/reconcile', json })
}

async function takeAnswer({ store, read }: Desk, job: string, answer: ReconcileAnswer): Promise<void> {
  await store.sync.takeIn({
    ...{ fates: [], cursors: {}, gone: [], filed: [], headsSent: [], covered: [] },
    pulled: answer.entries.map(pulledOf),
    heads: signedHeadsOf(job, answer.heads ?? []),
    cards: (answer.cards ?? []).map(cardRowOf),
    log: String((await store.setting('log')) ?? ''),
    heard_ms: Number((await store.setting('heard_ms')) ?? 0),
    now_ms: read().at_ms,
  })
}

/** Methods and drawings go at once; photo bytes are marked as unsent and go with the next upload. */
async function lendFiles({ store, door }: Desk, answer: ReconcileAnswer): Promise<void> {
  for (const digest of answer.methods_missing) {
    const text = await store.sync.methodText(digest)
    if (text === undefined) continue
    const bytes = new TextEncoder().encode(text).buffer
    await door.ask({
      method: 'PUT',
      path: `/api/methods/${digest}`,
      bytes,
      headers: asBytes('application/json'),
    })
  }
  for (const sha256 of answer.drawings_missing) {
    const bytes = await store.sync.drawingBytes(sha256)
    if (bytes === undefined) continue
    await door.ask({
      method: 'PUT',
      path: `/api/drawings/${sha256}`,
      bytes,
      headers: asBytes('image/svg+xml'),
    })
  }
  await resendPhotos(store, answer)
}

function asBytes(type: string): Record<string, string> {
  return { 'Content-Type': type }
}

/** Pushes what the server lacks, with all proofs of the job: it may hold an entry and have lost its head. */
async function fillServer(desk: Desk, job: string, missing: readonly string[]): Promise<void> {
  const { store } = desk
  let left = await store.sync.entriesByHash(missing)
  while (left.length > 0) {
    const entries = handOver(left)
    const sent = new Set(entries.map((entry) => entry.hash))
    const heads = await store.sync.signedHeads(job)
    const devices = new Set([...entries, ...heads].map(({ device }) => device))
    const cards = (await store.sync.cards([...devices])).map(({ card, signature }) => ({ card, signature }))
    await exchange(desk, [], { entries, heads, cards })
    left = left.filter((entry) => !sent.has(entry.hash))
  }
}

async function settle(
  { store }: Desk,
  job: string,
  ours: string,
  answer: ReconcileAnswer,
): Promise<Mismatch | undefined> {
  const theirs = answer.set_digest
  // Empty for a job that is not this phone's: it may bring what the server lacks, and is told nothing.
  if (theirs === '') return undefined
  await store.sync.setCursor(job, answer.cursor)
  return theirs === ours ? undefined : { job, what: 'set', ours, theirs }
}
