/** What the store promises: every type that a screen or the sync sees of what lies on this phone. */
import type { ReadonlySignal } from '@preact/signals'
import type { PlanFigures } from '../core/computations/plan_figures.ts'
import type { Author, Draft, Entry } from '../core/entries.ts'
import type { MethodDoc } from '../core/method.ts'
import type { Reading } from '../core/run_clock.ts'

export type { Author }

/** A draft, or one made from the entries before it in the same append: a deviation names a reading's hash. */
export type Drafting = Draft | ((made: readonly Entry[]) => Draft)

/** The two clocks at one instant; `load` is the page load that `mono_ms` counts from. */
export type ClockReading = Reading

/** The server's word on one entry. */
export type Fate = {
  readonly fate: 'taken' | 'set_aside' | 'refused'
  readonly code: string
  readonly message: string
  readonly field: string
}

/** An entry as this phone holds it. `received_ms` and `offset_ms` come with pulled entries only. */
export type StoredEntry = {
  readonly entry: Entry
  readonly text: string
  /** `phone`: nobody but this phone has it. `office`: the server acknowledged it, or sent it. */
  readonly where: 'phone' | 'office'
  /** Rises in the order in which this phone came to hold its entries. */
  readonly order: number
  readonly received_ms?: number
  readonly offset_ms?: number
  readonly fate?: Fate
}

/** A record that the office could not take: kept word for word, folded nowhere. */
export type RefusedRow = {
  readonly hash: string
  readonly job: string
  readonly text: string
  readonly fate: Fate
  readonly refused_ms: number
  /** Set once its author has read it and recorded it anew, or let it be. */
  readonly seen: boolean
}

export type JobRow = {
  readonly job: string
  readonly cursor: number
  /** No longer assigned to this phone's person; its records stay readable until they are due to go. */
  readonly gone: boolean
  /** When this phone first heard that the job was filed; 0 while it is not. */
  readonly filed_heard_ms: number
  /** Its entries were let go, 30 days after filing; only its cursor and chain are kept. */
  readonly let_go: boolean
}

export type Person = {
  readonly id: string
  readonly name: string
  readonly roles: readonly string[]
  readonly qualifications: readonly string[]
  /** How a PIN typed on this phone is checked; absent for a person without a PIN. */
  readonly pin?: PinVerifier
}

/** PBKDF2 of the PIN, 256 bits; salt and verifier in hex. */
export type PinVerifier = {
  readonly algorithm: 'PBKDF2-SHA256'
  readonly iterations: number
  readonly salt: string
  readonly verifier: string
}

export type PhotoPlace = {
  readonly method: string
  readonly digest: string
  readonly step: string
  readonly slot: string
  readonly position: string
  readonly caption: string
}

/** How good a picture is, by figures: see device/picture_quality.ts. */
export type PictureQuality = {
  readonly sharpness: number
  readonly brightness: number
  readonly dark_share: number
  readonly bright_share: number
}

/** A photo ready to be kept: location data already removed. */
export type PreparedPhoto = {
  readonly bytes: ArrayBuffer
  readonly thumb: ArrayBuffer
  readonly type: 'image/jpeg' | 'image/png'
  readonly width: number
  readonly height: number
  readonly quality?: PictureQuality
}

/** A maker's instruction as the office tells of it; of a job, of a method, or of both. */
export type PaperWords = {
  readonly sha256: string
  readonly name: string
  readonly job: string
  readonly method: string
  readonly bytes: number
}
/** `here`: its bytes lie on this phone, whole. */
export type PaperRow = PaperWords & { readonly here: boolean }

/** A heat plan that the office has pinned to a zone of a job's method. */
export type PlanWords = {
  readonly job: string
  readonly method: string
  readonly zone: string
  /** Digest of the zone document that was planned. */
  readonly plan: string
  /** Of the packed response set. */
  readonly sha256: string
  readonly bytes: number
  readonly name: string
  /** The plan's answer in one sentence. */
  readonly sentence: string
  readonly figures?: PlanFigures
}
/** `here`: its response set lies on this phone. */
export type PlanRow = PlanWords & { readonly here: boolean }

export type PhotoRow = {
  readonly sha256: string
  readonly job: string
  readonly bytes: number
  readonly type: 'image/jpeg' | 'image/png'
  readonly width: number
  readonly height: number
  /** SHA-256 of the thumbnail's bytes. */
  readonly thumb: string
  readonly kept_ms: number
  readonly where: 'phone' | 'office'
  /** A finished backup or a dossier holds it: this phone may let go of its bytes. */
  readonly covered: boolean
}

/** Which phone this is. `state` is what the office has made of it. */
export type Identity = {
  readonly device: string
  readonly public_key: string
  /** Signs a text as raw r||s in hex; the private half never leaves the browser. */
  readonly sign: (text: string) => Promise<string>
  readonly name: string
  readonly state: 'key_made' | 'waiting' | 'paired' | 'revoked'
  /** The digits that the office compares while `waiting`. */
  readonly check: string
  /** From the device card; the nil UUID for a phone that several people share. */
  readonly person: string
  readonly roles: readonly string[]
  readonly qualifications: readonly string[]
}

export type Unsent = { readonly entries: number; readonly photos: number }

/**
 * `ok`; `full`: the phone has no room; `closed`: the browser closed the store and it could not be opened
 * again; `lost`: this phone was paired and its store is empty.
 */
export type StoreHealth = 'ok' | 'full' | 'closed' | 'lost'

export type Settings = { readonly [key: string]: string | number | boolean }

/** What screens use. Every promise that writes resolves only after a durable write: then say 'saved'. */
export interface Store {
  /** One strict transaction over entries and chain heads; rejects with StoreFault and has then kept nothing. */
  append(job: string, drafts: readonly Drafting[], who: Author): Promise<Entry[]>
  /** Bytes durable first, then the `photo` entry; a kill between the two is mended at the next start. */
  recordPhoto(job: string, photo: PreparedPhoto, place: PhotoPlace, who: Author): Promise<Entry>

  /** Every entry of a job that folds or waits, in order of arrival; refused ones are in `refused`. */
  entries(job: string): Promise<readonly StoredEntry[]>
  refused(): Promise<readonly RefusedRow[]>
  sawRefused(hash: string): Promise<void>
  jobs(): Promise<readonly JobRow[]>
  methods(): Promise<Readonly<Record<string, MethodDoc>>>
  people(): Promise<readonly Person[]>

  photo(sha256: string): Promise<Blob | undefined>
  /** By the thumbnail's own hash (`body.thumb`). */
  thumb(thumb: string): Promise<Blob | undefined>
  photoRow(sha256: string): Promise<PhotoRow | undefined>
  drawing(sha256: string): Promise<Blob | undefined>
  papers(): Promise<readonly PaperRow[]>
  paper(sha256: string): Promise<Blob | undefined>
  plans(): Promise<readonly PlanRow[]>
  /** A plan's response set as JSON text, by its hash; undefined while it is not here. */
  planSet(sha256: string): Promise<string | undefined>

  identity(): Identity | undefined
  unsent(): Promise<Unsent>
  /** How large the photos are that only this phone has. */
  unsentPhotoBytes(): Promise<number>
  setting(key: string): Promise<string | number | boolean | undefined>
  setSetting(key: string, value: string | number | boolean): Promise<void>

  /** Called after entries, photos, jobs, methods or people changed, in this tab or another; '' = not one job. */
  onChange(changed: (job: string) => void): () => void
  /** Called with entries of an append that are not known to be on disk yet: to make ready by, never to show. */
  onWritten(written: (job: string, entries: readonly Entry[]) => void): void
  /** The clock that stamps entries from now on; until then the bare clocks of the platform do. */
  useClock(read: () => ClockReading): void
  readonly health: ReadonlySignal<StoreHealth>
  /** Whether the browser promised not to clear this store by itself. */
  readonly persisted: ReadonlySignal<'unknown' | 'granted' | 'not_granted'>
  close(): void
}
