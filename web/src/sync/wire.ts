/** The words of /api/sync and /api/reconcile, and the reading of pulled entries. */

import type { JsonObject } from '../core/canonical.ts'
import { entryHash } from '../core/digest.ts'
import type { Entry } from '../core/entries.ts'
import type { JobSeen, Mismatch } from '../core/sync_plan.ts'
import type { PulledEntry } from '../store/sync_side.ts'
import type { CardRow, SignedHead } from '../store/tables.ts'
import type { ClockReading, Unsent } from '../store/types.ts'
import { TransportFault } from './types.ts'

export type CardWords = { readonly card: string; readonly signature: string }

export type SyncRequest = {
  readonly protocol: number
  readonly log: string
  readonly cursors: Readonly<Record<string, number>>
  readonly entries: readonly string[]
  readonly heads: readonly SignedHead[]
  readonly cards: readonly CardWords[]
  readonly clock: { readonly load: string; readonly at_ms: number; readonly mono_ms: number }
  readonly holds: Unsent
  readonly reports: readonly Mismatch[]
}

export type FateWords = {
  readonly index: number
  readonly hash?: string
  readonly fate: 'taken' | 'set_aside' | 'refused'
  readonly code?: string
  readonly message?: string
  readonly field?: string
}
export type PulledWords = {
  readonly text: string
  readonly received_ms?: number
  readonly offset_ms?: number | null
}
export type HeadWords = {
  readonly device: string
  readonly seq: number
  readonly hash: string
  readonly count?: number
  readonly signature?: string
}
export type JobWords = JobSeen & {
  readonly entries: readonly PulledWords[]
  readonly heads: readonly HeadWords[]
}
export type SyncAnswer = {
  readonly protocol: number
  readonly fold: number
  readonly log: string
  readonly now_ms: number
  readonly fates: readonly FateWords[]
  readonly jobs: readonly JobWords[]
  readonly new_jobs?: readonly string[]
  readonly gone_jobs?: readonly string[]
  /** How far the office holds the jobs that are no longer this phone's own. */
  readonly gone_heads?: readonly { readonly job: string; readonly heads: readonly HeadWords[] }[]
  readonly covered_photos?: readonly string[]
  /** Named by entries and not at the office: a server that was put back may lack the bytes alone. */
  readonly photos_missing?: readonly string[]
  readonly thumbs_missing?: readonly string[]
  readonly cards?: readonly CardWords[]
  /** Names people, methods and drawings as they now are: another name and the bundle is due. */
  readonly bundle: string
  readonly filed_jobs?: readonly string[]
  /** This phone's protocol is too old for the server. */
  readonly update?: boolean
}

export type ReconcileAnswer = {
  readonly log: string
  readonly missing_here: readonly string[]
  readonly entries: readonly PulledWords[]
  readonly more?: boolean
  readonly heads?: readonly HeadWords[]
  readonly cards?: readonly CardWords[]
  readonly photos_missing: readonly string[]
  readonly thumbs_missing?: readonly string[]
  readonly methods_missing: readonly string[]
  readonly drawings_missing: readonly string[]
  readonly cursor: number
  readonly set_digest: string
}

/** A pulled entry, its hash checked: what does not say its own hash came through a broken wire. */
export function pulledOf(words: PulledWords): PulledEntry {
  const whole = JSON.parse(words.text) as JsonObject & { hash: string }
  const { hash, ...open } = whole
  if (entryHash(open) !== hash)
    throw new TransportFault(`entry ${hash}: came with other words than its hash says`)
  const { text, received_ms, offset_ms } = words
  return {
    entry: whole as unknown as Entry,
    text,
    ...(received_ms === undefined ? {} : { received_ms }),
    ...(offset_ms === undefined || offset_ms === null ? {} : { offset_ms }),
  }
}

/** The server's heads of one job that carry a signature; one without is no proof to hand on. */
export function signedHeadsOf(job: string, heads: readonly HeadWords[]): SignedHead[] {
  return heads.flatMap(({ device, seq, hash, signature }) =>
    signature ? [{ job, device, seq, hash, signature }] : [],
  )
}

export function cardRowOf({ card, signature }: CardWords): CardRow {
  return { device: (JSON.parse(card) as { device: string }).device, card, signature }
}

export function clockWords({ load, at_ms, mono_ms }: ClockReading): SyncRequest['clock'] {
  return { load, at_ms, mono_ms }
}
