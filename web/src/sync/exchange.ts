/** One round trip of /api/sync: push what waits, take in what came, in one durable step. */

import { headText } from '../core/digest.ts'
import { batchOf, headsToSign, type Mismatch, PROTOCOL, type Waiting } from '../core/sync_plan.ts'
import type { ClockReading, PhoneStore } from '../store/index.ts'
import type { FateToKeep } from '../store/sync_side.ts'
import type { SignedHead } from '../store/tables.ts'
import type { Door } from './door.ts'
import {
  type CardWords,
  cardRowOf,
  clockWords,
  type FateWords,
  pulledOf,
  type SyncAnswer,
  type SyncRequest,
  signedHeadsOf,
} from './wire.ts'

/** What a sync works with; time comes in as an argument. */
export type Desk = {
  readonly store: PhoneStore
  readonly door: Door
  readonly read: () => ClockReading
  /** Told the server's time beside the reading it belongs to. */
  readonly heardServer: (at: ClockReading, server_ms: number, within_ms: number) => void
}

/** Entries of others (or acknowledged ones of our own) that a server put back lacks. */
export type HandOver = {
  readonly entries: readonly Waiting[]
  readonly heads: readonly SignedHead[]
  readonly cards: readonly CardWords[]
}
export const NOTHING_TO_HAND_OVER: HandOver = { entries: [], heads: [], cards: [] }

export async function exchange(
  desk: Desk,
  reports: readonly Mismatch[],
  extra = NOTHING_TO_HAND_OVER,
): Promise<SyncAnswer> {
  const { store, door } = desk
  const waiting = [...extra.entries, ...(await store.sync.outbox(500))]
  const batch = batchOf([...new Map(waiting.map((one) => [one.hash, one])).values()])
  const own = await signed(store, batch)
  const request = await requestOf(desk, batch, [...own, ...extra.heads], reports, extra.cards)
  const asked = desk.read()
  const answer = await door.json<SyncAnswer>({ method: 'POST', path: '/api/sync', json: request })
  if (await bundleIsDue(store, answer)) await store.setSetting('bundle_due', true)
  await keep(desk, request, batch, own, answer)
  await resendPhotos(store, answer)
  await keepOwnCard(store, answer)
  tellClock(desk, asked, answer)
  return answer
}

type PhotosMissing = {
  readonly photos_missing?: readonly string[]
  readonly thumbs_missing?: readonly string[]
}

/** What the office lacks and this phone holds goes again with the next upload. */
export async function resendPhotos(
  { sync }: PhoneStore,
  { photos_missing = [], thumbs_missing = [] }: PhotosMissing,
): Promise<void> {
  if (thumbs_missing.length > 0) await sync.resendThumbs(thumbs_missing)
  if (photos_missing.length > 0) await sync.resendPhotos(photos_missing)
}

/** Noted before the entries are kept: a kill in between must not leave a pin without its methods. */
async function bundleIsDue(store: PhoneStore, { bundle }: SyncAnswer): Promise<boolean> {
  return (await store.setting('bundle_heard')) !== bundle
}

async function requestOf(
  { store, read }: Desk,
  batch: readonly Waiting[],
  heads: readonly SignedHead[],
  reports: readonly Mismatch[],
  cards: readonly CardWords[],
): Promise<SyncRequest> {
  const jobs = await store.sync.jobs()
  return {
    protocol: PROTOCOL,
    log: String((await store.setting('log')) ?? ''),
    cursors: Object.fromEntries(jobs.map(({ job, cursor }) => [job, cursor])),
    entries: batch.map(({ text }) => text),
    heads: [...new Map(heads.map((head) => [head.hash, head])).values()].map(headWords),
    cards,
    clock: clockWords(read()),
    holds: await store.unsent(),
    reports,
  }
}

function headWords({ job, device, seq, hash, signature }: SignedHead): SignedHead {
  return { job, device, seq, hash, signature }
}

/** This phone's heads for a batch, signed now; the key never signs anything but what is sent. */
async function signed(store: PhoneStore, batch: readonly Waiting[]): Promise<SignedHead[]> {
  const me = store.identity()
  if (me === undefined) return []
  const heads = headsToSign(batch, await store.sync.headsOwed(), me.device)
  return Promise.all(
    heads.map(async ({ job, device, seq, hash }) => ({
      ...{ job, device, seq, hash },
      signature: await me.sign(headText({ job, device, seq, hash })),
    })),
  )
}

async function keep(
  { store, read }: Desk,
  request: SyncRequest,
  batch: readonly Waiting[],
  own: readonly SignedHead[],
  answer: SyncAnswer,
): Promise<void> {
  await store.sync.takeIn({
    pulled: answer.jobs.flatMap(({ entries }) => entries.map(pulledOf)),
    fates: answer.fates.flatMap((words) => fateToKeep(words, batch, store.identity()?.device, answer.now_ms)),
    cursors: cursorsOf(request, answer),
    gone: answer.gone_jobs ?? [],
    filed: answer.filed_jobs ?? [],
    heads: [...own, ...answer.jobs.flatMap(({ job, heads }) => signedHeadsOf(job, heads))],
    headsSent: own.map(({ hash }) => hash),
    cards: (answer.cards ?? []).map(cardRowOf),
    covered: answer.covered_photos ?? [],
    log: request.log === '' ? answer.log : request.log,
    heard_ms: answer.now_ms,
    now_ms: read().at_ms,
  })
}

/** The office changed what this phone's person may do: its card was signed anew. */
async function keepOwnCard(store: PhoneStore, answer: SyncAnswer): Promise<void> {
  const key = store.sync.key()
  const own = (answer.cards ?? []).find((words) => cardRowOf(words).device === key?.device)
  if (key === undefined || own === undefined || own.card === key.card) return
  await store.sync.saveKey({ ...key, card: own.card, card_signature: own.signature })
}

/** After a changed log the cursors of old stand until each job is reconciled. */
function cursorsOf(request: SyncRequest, answer: SyncAnswer): Record<string, number> {
  const changed = request.log !== '' && request.log !== answer.log
  const moved = answer.jobs.filter(({ job, cursor }) => !changed && cursor >= (request.cursors[job] ?? 0))
  const fresh = (answer.new_jobs ?? []).filter((job) => request.cursors[job] === undefined)
  return Object.fromEntries([
    ...fresh.map((job) => [job, 0] as const),
    ...moved.map(({ job, cursor }) => [job, cursor] as const),
  ])
}

/** Of another device's entry only a refusal matters here: what was set aside is its author's to hear. */
function fateToKeep(
  words: FateWords,
  batch: readonly Waiting[],
  me: string | undefined,
  at_ms: number,
): FateToKeep[] {
  const sent = batch[words.index]
  if (sent === undefined) return []
  const { code = '', message = '', field = '' } = words
  const fate = words.fate === 'set_aside' && sent.device !== me ? 'taken' : words.fate
  return [{ hash: sent.hash, job: sent.job, fate, code, message, field, at_ms }]
}

/** The server read its clock somewhere within the round trip: its middle is the best guess. */
function tellClock({ read, heardServer }: Desk, asked: ClockReading, { now_ms }: SyncAnswer): void {
  const now = read()
  const half_ms = Math.floor((now.mono_ms - asked.mono_ms) / 2)
  heardServer(now, now_ms + half_ms, half_ms)
}
