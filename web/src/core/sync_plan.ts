/** The plan of a sync: what to send, which heads to sign, and what an answer asks for next; no effects. */
import { setDigest, sha256Hex } from './digest.ts'

/** The protocol that this app speaks. */
export const PROTOCOL = 1
export const BATCH_ENTRIES_MAX = 500
export const BATCH_CHARACTERS_MAX = 1_500_000

export type Link = {
  readonly job: string
  readonly device: string
  readonly seq: number
  readonly hash: string
}
export type Waiting = Link & { readonly text: string }

/** An entry as the plan sees it: `waiting` until the server acknowledged it. */
export type HeldLink = Omit<Link, 'job'> & { readonly waiting: boolean }

/** The next entries that fit one request, oldest first; at least one, however long. */
export function batchOf(waiting: readonly Waiting[]): readonly Waiting[] {
  let characters = 0
  const fits = waiting.slice(0, BATCH_ENTRIES_MAX).findIndex(({ text }, index) => {
    characters += text.length
    return index > 0 && characters > BATCH_CHARACTERS_MAX
  })
  return waiting.slice(0, fits === -1 ? BATCH_ENTRIES_MAX : fits)
}

/**
 * The heads that this phone signs with a batch: per job the newest entry of the batch, for a newer one
 * reaches the batch only through entries that the server lacks; and those before a refused entry.
 */
export function headsToSign(batch: readonly Link[], owed: readonly Link[], device: string): readonly Link[] {
  const newest = new Map<string, Link>()
  for (const link of batch.filter((one) => one.device === device)) {
    const known = newest.get(link.job)
    if (known === undefined || known.seq < link.seq) newest.set(link.job, link)
  }
  const heads = [...newest.values(), ...owed.filter((one) => one.device === device)]
  return [...new Map(heads.map((head) => [head.hash, head])).values()]
}

/** What this phone holds of one job, counted before the answer is compared with it. */
export type JobHeld = {
  readonly job: string
  readonly links: readonly HeldLink[]
  /** The cursor before this round trip. */
  readonly cursor: number
  /** Its entries were let go: nothing to compare. */
  readonly letGo: boolean
}

/** `count`: how many entries of the chain the server holds. */
export type ChainSeen = {
  readonly device: string
  readonly seq: number
  readonly hash: string
  readonly count?: number
}
export type JobSeen = {
  readonly job: string
  readonly cursor: number
  readonly more: boolean
  readonly heads: readonly ChainSeen[]
  readonly set_digest?: string
  readonly state_digest?: string
}

export type Step =
  | { readonly step: 'reconcile'; readonly job: string; readonly key: string }
  | { readonly step: 'report'; readonly report: Mismatch; readonly key: string }
  | {
      readonly step: 'compare_state'
      readonly job: string
      readonly set_digest: string
      readonly state_digest: string
    }

/** What is told to the office's log; it stops nobody. */
export type Mismatch = {
  readonly job: string
  readonly what: 'set' | 'state'
  readonly ours: string
  readonly theirs: string
}

/**
 * What to do about one job once its answer was taken in. `done` holds the keys of reconciles and
 * reports already made: one for each job, log and pair of digests.
 */
export function stepFor(
  held: JobHeld,
  seen: JobSeen,
  log: LogPair,
  done: ReadonlySet<string>,
): Step | undefined {
  if (held.letGo) return undefined
  const ours = setDigest(held.links.map((link) => link.hash))
  const theirs = seen.set_digest ?? ''
  if (log.changed) return reconcileOnce(held.job, log.now, ours, behindName(seen), done)
  if (seen.more) return undefined
  if (isBehind(held, seen)) return reconcileOnce(held.job, log.now, ours, behindName(seen), done)
  if (theirs === '' || held.links.some((link) => link.waiting)) return undefined
  if (theirs !== ours) return reconcileOrReport(held.job, log.now, ours, theirs, done)
  const { state_digest } = seen
  return state_digest === undefined
    ? undefined
    : { step: 'compare_state', job: held.job, set_digest: ours, state_digest }
}

/** `changed`: another store answers than the one this phone heard last. */
export type LogPair = { readonly now: string; readonly changed: boolean }

export function logPair(known: string, now: string): LogPair {
  return { now, changed: known !== '' && known !== now }
}

/** The server has fewer entries of this job or of one chain, or an older head, than this phone heard from it. */
function isBehind(held: JobHeld, seen: JobSeen): boolean {
  if (seen.cursor < held.cursor) return true
  const theirs = new Map(seen.heads.map((head) => [head.device, head]))
  const known = new Set(held.links.map((link) => link.hash))
  return [...heardChains(held.links)].some(([device, ours]) => isShort(theirs.get(device), ours, known))
}

type Reach = { readonly seq: number; readonly count: number }

/** A head alone does not tell of a hole behind it: its count does; nor of another in its place: its hash does. */
function isShort(theirs: ChainSeen | undefined, ours: Reach, known: ReadonlySet<string>): boolean {
  if (theirs === undefined || theirs.seq < ours.seq) return true
  if (theirs.seq === ours.seq && !known.has(theirs.hash)) return true
  return (theirs.count ?? ours.count) < ours.count
}

/** Per chain how far, and how many entries of it, the server once acknowledged. */
function heardChains(links: readonly HeldLink[]): Map<string, Reach> {
  const chains = new Map<string, Reach>()
  for (const { device, seq, waiting } of links) {
    if (waiting) continue
    const known = chains.get(device) ?? { seq: 0, count: 0 }
    chains.set(device, { seq: Math.max(seq, known.seq), count: known.count + 1 })
  }
  return chains
}

/** Stands for the digest that a server behind does not send: its heads and cursor, which say how far it is. */
function behindName(seen: JobSeen): string {
  const heads = seen.heads
    .map(({ device, seq, hash, count = 0 }) => `${device} ${seq} ${hash} ${count}`)
    .sort()
  return sha256Hex([`cursor ${seen.cursor}`, ...heads].join('\n'))
}

function reconcileOnce(
  job: string,
  log: string,
  ours: string,
  theirs: string,
  done: ReadonlySet<string>,
): Step | undefined {
  const key = reconcileKey(job, log, ours, theirs)
  return done.has(key) ? undefined : { step: 'reconcile', job, key }
}

function reconcileOrReport(
  job: string,
  log: string,
  ours: string,
  theirs: string,
  done: ReadonlySet<string>,
): Step | undefined {
  const first = reconcileOnce(job, log, ours, theirs, done)
  if (first !== undefined) return first
  return reportOnce({ job, what: 'set', ours, theirs }, done)
}

export function reconcileKey(job: string, log: string, ours: string, theirs: string): string {
  return `reconcile ${job} ${log} ${ours} ${theirs}`
}

/** A mismatch, unless it was told before. */
export function reportOnce(report: Mismatch, done: ReadonlySet<string>): Step | undefined {
  const key = `report ${report.what} ${report.job} ${report.ours} ${report.theirs}`
  return done.has(key) ? undefined : { step: 'report', report, key }
}

/** What two sides of a reconcile still lack of each other; it ends when nothing is. */
export type Lacks = {
  readonly missing_here: readonly string[]
  readonly entries: readonly unknown[]
  readonly photos_missing: readonly string[]
  readonly methods_missing: readonly string[]
  readonly drawings_missing: readonly string[]
}

/** Entries decide the end; photos and files that nobody here has cannot hold it up. */
export function isReconciled(lacks: Lacks): boolean {
  return lacks.missing_here.length === 0 && lacks.entries.length === 0
}

/** Of the missing texts, one request's worth in chain order, so that each `prev` comes before its next. */
export function handOver<Text extends Waiting>(texts: readonly Text[]): readonly Waiting[] {
  return batchOf([...texts].sort((a, b) => byText(a.device, b.device) || a.seq - b.seq))
}

function byText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}

/** The wait before trying again after `failures` in a row: doubling from 1 s to 60 s, spread by chance in 0..1. */
export function backoffMs(failures: number, chance: number): number {
  const full_ms = Math.min(60_000, 1_000 * 2 ** Math.max(0, failures - 1))
  return Math.round(full_ms * (0.5 + chance / 2))
}
