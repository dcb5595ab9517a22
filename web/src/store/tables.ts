/** The tables of this phone, by Dexie. Entries are words as they came; no upgrade may touch that table. */
import { Dexie, type Table } from 'dexie'
import type { ClockState } from '../core/run_clock.ts'
import type { Fate, JobRow, PaperWords, Person, PhotoPlace, PhotoRow, PlanWords } from './types.ts'

/** Written once, never again: what is known later stands in `outbox` and `fates`. */
export type EntryRow = {
  readonly order?: number
  readonly hash: string
  readonly job: string
  readonly device: string
  readonly seq: number
  readonly text: string
  readonly received_ms?: number
  readonly offset_ms?: number
}
export type ChainRow = {
  readonly job: string
  readonly device: string
  readonly seq: number
  readonly hash: string
}
/** An entry that the server has not acknowledged. */
export type OutboxRow = ChainRow
export type FateRow = Fate & {
  readonly hash: string
  readonly job: string
  readonly at_ms: number
  readonly seen: boolean
}
export type SignedHead = ChainRow & { readonly signature: string }
export type CardRow = { readonly device: string; readonly card: string; readonly signature: string }
export type ChunkRow = { readonly sha256: string; readonly index: number; readonly bytes: ArrayBuffer }
export type PhotoIntent = {
  readonly job: string
  readonly place: PhotoPlace
  readonly by: string
  readonly auth: 'own' | 'pin' | 'picked'
  readonly as: readonly string[]
}
/** `pending` is an entry still owed to bytes that are on disk already. */
export type PhotoTableRow = PhotoRow & {
  readonly pending: readonly PhotoIntent[]
  readonly upload_url?: string
}
export type ThumbRow = {
  readonly thumb: string
  readonly bytes: ArrayBuffer
  readonly where: 'phone' | 'office'
}
export type KeyRow = {
  readonly id: 'me'
  readonly keys: CryptoKeyPair
  readonly public_key: string
  readonly device: string
  readonly name: string
  readonly state: 'key_made' | 'waiting' | 'paired' | 'revoked'
  readonly check: string
  readonly card: string
  readonly card_signature: string
  readonly seal: string
}
export type ClockRow = { readonly load: string; readonly state: ClockState }
export type Row<Value> = { readonly key: string; readonly value: Value }

export class Tables extends Dexie {
  declare entries: Table<EntryRow, number>
  declare chains: Table<ChainRow, [string, string]>
  declare outbox: Table<OutboxRow, string>
  declare fates: Table<FateRow, string>
  declare signed_heads: Table<SignedHead, string>
  declare heads_owed: Table<ChainRow, string>
  declare cards: Table<CardRow, string>
  declare jobs: Table<JobRow, string>
  declare photo_chunks: Table<ChunkRow, [string, number]>
  declare photos: Table<PhotoTableRow, string>
  declare thumbs: Table<ThumbRow, string>
  declare methods: Table<{ readonly digest: string; readonly text: string }, string>
  declare drawings: Table<
    { readonly sha256: string; readonly type: string; readonly bytes: ArrayBuffer },
    string
  >
  declare papers: Table<PaperWords, [string, string, string]>
  declare paper_chunks: Table<ChunkRow, [string, number]>
  declare plans: Table<PlanWords, [string, string, string]>
  declare plan_sets: Table<{ readonly sha256: string; readonly bytes: ArrayBuffer }, string>
  declare people: Table<Person, string>
  declare identity: Table<KeyRow, string>
  declare settings: Table<Row<string | number | boolean>, string>
  declare clocks: Table<ClockRow, string>
  declare reconciled: Table<{ readonly key: string }, string>

  constructor(name: string) {
    super(name, { chromeTransactionDurability: 'strict' })
    this.version(1).stores({
      entries: '++order, &hash, job',
      chains: '[job+device]',
      outbox: 'hash',
      fates: 'hash, job',
      signed_heads: 'hash, job',
      heads_owed: 'hash',
      cards: 'device',
      jobs: 'job',
      photo_chunks: '[sha256+index]',
      photos: 'sha256, where, thumb',
      thumbs: 'thumb, where',
      methods: 'digest',
      drawings: 'sha256',
      people: 'id',
      identity: 'id',
      settings: 'key',
      clocks: 'load',
      reconciled: 'key',
    })
    this.version(2).stores({ papers: '[sha256+job+method]', paper_chunks: '[sha256+index]' })
    this.version(3).stores({ plans: '[job+method+zone]', plan_sets: 'sha256' })
  }
}
