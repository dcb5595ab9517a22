/** The store that screens use, on the tables of this phone. */
import { type ReadonlySignal, signal } from '@preact/signals'
import type { Author, Entry } from '../core/entries.ts'
import { APPEND_STORES, appendOnce } from './append.ts'
import { type Connection, connect } from './connection.ts'
import { identityOf, makeKey } from './device_key.ts'
import { StoreFault } from './fault.ts'
import { LogCache, readLog } from './log_cache.ts'
import { browserMarker, type Marker } from './marker.ts'
import { paperBytes, paperRows } from './papers.ts'
import { owingPhotos, photoBytes } from './photos.ts'
import { platformReading } from './platform_clock.ts'
import { Reads } from './reads.ts'
import { strictly } from './strict.ts'
import type { SyncSide } from './sync_side.ts'
import { hasPlans, syncSide } from './sync_store.ts'
import { type KeyRow, Tables } from './tables.ts'
import { type Changes, changesOf } from './tabs.ts'
import type { ClockReading, Drafting, Identity, PhotoPlace, PreparedPhoto, Store, Unsent } from './types.ts'

/** The store with the side that the sync uses. */
export interface PhoneStore extends Store {
  readonly sync: SyncSide
}

export type StoreOptions = { readonly marker?: Marker; readonly tables?: Tables }

export async function openStore(name: string, options: StoreOptions = {}): Promise<PhoneStore> {
  const connection = await connect(options.tables ?? new Tables(name))
  const store = new TablesStore(connection, name, options.marker ?? browserMarker(name))
  await store.start()
  return store
}

class TablesStore implements PhoneStore {
  readonly sync: SyncSide
  readonly persisted: ReadonlySignal<'unknown' | 'granted' | 'not_granted'>
  private readonly asked = signal<'unknown' | 'granted' | 'not_granted'>('unknown')
  private readonly connection: Connection
  private readonly cache = new LogCache()
  private readonly reads: Reads
  private readonly changes: Changes
  private readonly marker: Marker
  private read: () => ClockReading = platformReading
  private written: Parameters<Store['onWritten']>[0] = () => {}
  private key: KeyRow | undefined
  private me: Identity | undefined

  constructor(connection: Connection, name: string, marker: Marker) {
    this.connection = connection
    this.reads = new Reads(connection)
    this.marker = marker
    this.persisted = this.asked
    this.changes = changesOf(name, (job) => this.heardFromTab(job))
    this.sync = syncSide(connection, {
      changed: (jobs) => this.changed(jobs),
      key: () => this.key,
      saveKey: (row) => this.saveKey(row),
      fates: this.reads.fates,
    })
  }

  /** Reads the identity, says whether the store was lost, and makes the entries that photos still owe. */
  async start(): Promise<void> {
    await this.loadKey()
    // Also at the starts after that one, until it is paired again: the key then there is a new one.
    if (!wasLetIn(this.key) && this.marker.read() !== '') this.connection.mark('lost')
    if (this.key === undefined) await this.saveKey(await makeKey())
    this.connection.guard()
    void this.askToPersist()
    const device = this.key?.device ?? ''
    if ((await this.connection.run(owingPhotos)) === 0) return
    const part = await import('./photo_entries.ts').catch(() => undefined) // not here now: at the next start
    await part?.settlePhotos(this.connection, this.read, device, (job) => this.changed([job]))
  }

  get health() {
    return this.connection.health
  }

  onWritten(written: Parameters<Store['onWritten']>[0]): void {
    this.written = written
  }

  useClock(read: () => ClockReading): void {
    this.read = read
  }

  async append(job: string, drafts: readonly Drafting[], who: Author): Promise<Entry[]> {
    const writing = { job, device: this.device(), who, drafts }
    const attempt = appendOnce(
      this.read,
      writing,
      (entries) => queueMicrotask(() => this.written(job, entries)), // by itself: what fails there must not fail the append
    )
    const appended = await this.connection.run((tables) => strictly(tables, APPEND_STORES, attempt))
    this.cache.appended(job, appended)
    this.changes.tell(job)
    return appended.map(({ entry }) => entry)
  }

  async recordPhoto(job: string, photo: PreparedPhoto, place: PhotoPlace, who: Author): Promise<Entry> {
    const intent = { job, place, by: who.by, auth: who.auth, as: who.as }
    const part = await import('./photo_entries.ts').catch((cause: unknown) => {
      throw new StoreFault('closed', { cause }) // kept on the screen, and tried again by a tap
    })
    const entry = await part.recordPhotoIn(this.connection, this.read, this.device(), photo, intent)
    this.changed([job, ''])
    return entry
  }

  entries(job: string) {
    return this.cache.entries(job, (known) => this.connection.run((tables) => readLog(tables, job, known)))
  }

  refused() {
    return this.reads.refused()
  }

  async sawRefused(hash: string): Promise<void> {
    await this.connection.run((tables) => tables.fates.update(hash, { seen: true }))
    this.changed([''])
  }

  jobs() {
    return this.reads.jobs()
  }

  methods() {
    return this.reads.methods()
  }

  people() {
    return this.reads.people()
  }

  async photo(sha256: string): Promise<Blob | undefined> {
    const bytes = await this.connection.run((tables) => photoBytes(tables, sha256))
    return bytes === undefined ? undefined : new Blob([bytes], { type: typeOf(bytes) })
  }

  async thumb(thumb: string): Promise<Blob | undefined> {
    const row = await this.connection.run((tables) => tables.thumbs.get(thumb))
    return row === undefined ? undefined : new Blob([row.bytes], { type: typeOf(row.bytes) })
  }

  photoRow(sha256: string) {
    return this.connection.run((tables) => tables.photos.get(sha256))
  }

  async drawing(sha256: string): Promise<Blob | undefined> {
    const row = await this.connection.run((tables) => tables.drawings.get(sha256))
    return row === undefined ? undefined : new Blob([row.bytes], { type: row.type })
  }

  papers() {
    return this.connection.run(paperRows)
  }

  async paper(sha256: string): Promise<Blob | undefined> {
    const bytes = await this.connection.run((tables) => paperBytes(tables, sha256))
    return bytes === undefined ? undefined : new Blob([bytes], { type: 'application/pdf' })
  }

  plans() {
    return this.connection.run(async (tables) =>
      (await hasPlans(tables)) ? (await import('./plans.ts')).planRows(tables) : [],
    )
  }

  planSet(sha256: string) {
    return this.connection.run(async (tables) => (await import('./plans.ts')).setText(tables, sha256))
  }

  identity(): Identity | undefined {
    return this.me
  }

  unsent(): Promise<Unsent> {
    return this.connection.run(async (tables) => ({
      entries: await tables.outbox.count(),
      photos: await tables.photos.where('where').equals('phone').count(),
    }))
  }

  async unsentPhotoBytes(): Promise<number> {
    const rows = await this.connection.run((tables) => tables.photos.where('where').equals('phone').toArray())
    return rows.reduce((bytes, row) => bytes + row.bytes, 0)
  }

  setting(key: string) {
    return this.reads.setting(key)
  }

  async setSetting(key: string, value: string | number | boolean): Promise<void> {
    await this.connection.run((tables) => tables.settings.put({ key, value }))
    this.reads.forgetSetting(key)
    this.changes.tell('')
  }

  onChange(changed: (job: string) => void): () => void {
    return this.changes.onChange(changed)
  }

  close(): void {
    this.changes.close()
    this.connection.close()
  }

  private device(): string {
    if (this.key === undefined || this.health.value === 'lost') throw new StoreFault('lost')
    return this.key.device
  }

  private async loadKey(): Promise<void> {
    this.key = await this.connection.run((tables) => tables.identity.get('me'))
    this.me = this.key === undefined ? undefined : identityOf(this.key)
  }

  private async saveKey(row: KeyRow): Promise<void> {
    await this.connection.run((tables) => tables.identity.put(row))
    this.key = row
    this.me = identityOf(row)
    if (row.state === 'paired') {
      this.marker.write(row.device)
      this.connection.mark('ok')
    }
    this.changes.tell('')
  }

  private changed(jobs: Iterable<string>): void {
    this.reads.forget()
    for (const job of jobs) {
      if (job !== '') this.cache.forget(job)
      this.changes.tell(job)
    }
  }

  private heardFromTab(job: string): void {
    this.reads.forget()
    if (job === '') void this.loadKey()
    else this.cache.forget(job)
  }

  private async askToPersist(): Promise<void> {
    if (!('navigator' in globalThis) || navigator.storage?.persist === undefined) return
    this.asked.value = (await navigator.storage.persist().catch(() => false)) ? 'granted' : 'not_granted'
  }
}

function wasLetIn(key: KeyRow | undefined): boolean {
  return key?.state === 'paired' || key?.state === 'revoked'
}

/** JPEG and PNG are all that is kept; the first byte tells them apart. */
function typeOf(bytes: ArrayBuffer): string {
  return new Uint8Array(bytes)[0] === 0x89 ? 'image/png' : 'image/jpeg'
}
