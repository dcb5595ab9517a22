/** What the sync may read of the store and write into it; screens never see this side. */
import type { MaterialSheet } from '../core/computations/sheets.ts'
import type { Entry } from '../core/entries.ts'
import type { ClockState } from '../core/run_clock.ts'
import type { HeldLink } from '../core/sync_plan.ts'
import type {
  CardRow,
  ChainRow,
  FateRow,
  KeyRow,
  OutboxRow,
  PhotoTableRow,
  SignedHead,
  ThumbRow,
} from './tables.ts'
import type { JobRow, PaperWords, Person, PlanWords } from './types.ts'

export type OutboxEntry = OutboxRow & { readonly text: string }
export type PulledEntry = {
  readonly entry: Entry
  readonly text: string
  readonly received_ms?: number
  readonly offset_ms?: number
}
/** One entry's fate as it will be kept; `taken` rows only clear the outbox. */
export type FateToKeep = Omit<FateRow, 'seen' | 'job'> & { readonly job: string }

/** All that one answer of the server changes here, written in one transaction. */
export type Intake = {
  readonly fates: readonly FateToKeep[]
  readonly pulled: readonly PulledEntry[]
  readonly cursors: Readonly<Record<string, number>>
  readonly gone: readonly string[]
  readonly filed: readonly string[]
  readonly heads: readonly SignedHead[]
  readonly headsSent: readonly string[]
  readonly cards: readonly CardRow[]
  readonly covered: readonly string[]
  readonly log: string
  readonly heard_ms: number
  readonly now_ms: number
}

/** What the office has entered as in use: days as 2026-05-31, empty where nobody knows them. */
export type Shelf = {
  readonly instruments: readonly {
    readonly number: string
    readonly kind: string
    readonly calibrated_until: string
  }[]
  readonly lots: readonly { readonly material: string; readonly lot: string; readonly expires: string }[]
  /** Suppliers' sheets in use; absent from a server that keeps none. */
  readonly sheets?: readonly MaterialSheet[]
}
export type Bundle = {
  readonly version: string
  readonly people: readonly Person[]
  readonly methods: Readonly<Record<string, string>>
  /** Absent from a server that knows none. */
  readonly papers?: readonly PaperWords[]
  readonly plans?: readonly PlanWords[]
  readonly shelf?: Shelf
}
export type Drawing = { readonly sha256: string; readonly type: string; readonly bytes: ArrayBuffer }
export type Held = { readonly methods: readonly string[]; readonly drawings: readonly string[] }

export interface SyncSide {
  /** The next entries to push, oldest first. */
  outbox(limit: number): Promise<OutboxEntry[]>
  /** Heads to be signed although no entry goes with them: those before a refused entry. */
  headsOwed(): Promise<ChainRow[]>
  signedHeads(job: string): Promise<SignedHead[]>
  cards(devices: readonly string[]): Promise<CardRow[]>
  entriesByHash(hashes: readonly string[]): Promise<readonly (ChainRow & { readonly text: string })[]>
  /** A job's entries as links, without refused ones: what the server may hold of it. */
  links(job: string): Promise<HeldLink[]>
  jobs(): Promise<readonly JobRow[]>
  takeIn(intake: Intake): Promise<void>
  setCursor(job: string, cursor: number): Promise<void>
  /** Keys of the reconciles and reports that were made. */
  reconciled(): Promise<ReadonlySet<string>>
  markReconciled(key: string): Promise<void>

  saveBundle(bundle: Bundle): Promise<void>
  saveDrawing(drawing: Drawing): Promise<void>
  /** Instructions that the office tells of and this phone does not hold. */
  papersMissing(): Promise<string[]>
  keepPaper(sha256: string, bytes: ArrayBuffer): Promise<void>
  /** Response sets of pinned plans that this phone does not hold. */
  planSetsMissing(): Promise<string[]>
  keepPlanSet(sha256: string, bytes: ArrayBuffer): Promise<void>
  held(): Promise<Held>
  methodText(digest: string): Promise<string | undefined>
  drawingBytes(sha256: string): Promise<ArrayBuffer | undefined>

  photosToSend(): Promise<PhotoTableRow[]>
  photosHeld(job: string): Promise<string[]>
  photoBytes(sha256: string): Promise<ArrayBuffer | undefined>
  keepFetchedPhoto(sha256: string, bytes: ArrayBuffer): Promise<void>
  setUploadUrl(sha256: string, url: string): Promise<void>
  markPhoto(sha256: string, where: 'phone' | 'office'): Promise<void>
  /** Marks those whose bytes are held as not at the office; one that is on its way stays on its way. */
  resendPhotos(photos: readonly string[]): Promise<void>
  thumbsToSend(): Promise<ThumbRow[]>
  keepThumb(thumb: ThumbRow): Promise<void>
  /** Marks those that are held as not yet at the office. */
  resendThumbs(thumbs: readonly string[]): Promise<void>

  fates(): Promise<FateRow[]>
  key(): KeyRow | undefined
  saveKey(row: KeyRow): Promise<void>
  /** Lets go of what was filed 30 days ago, and of the bytes of covered photos of filed jobs. */
  letGo(now_ms: number): Promise<void>
  savedClock(): Promise<ClockState | undefined>
  saveClock(state: ClockState): Promise<void>
}
