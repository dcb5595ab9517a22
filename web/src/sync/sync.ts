/** The sync of this phone: when it runs, what it says of itself, and the switch that cuts it off. */
import { type ReadonlySignal, signal } from '@preact/signals'
import { backoffMs } from '../core/sync_plan.ts'
import type { ClockReading, PhoneStore } from '../store/index.ts'
import { type Door, doorOf } from './door.ts'
import { browserOccasions, type Occasion, type Occasions } from './occasions.ts'
import type { Upload } from './photo_upload.ts'
import { type Round, runRound } from './round.ts'
import { type Alone, aloneByLocks } from './single_flight.ts'
import { counted, FIRST_STATUS, NO_TROUBLE, type Outcome, outcomeOf } from './standing.ts'
import { stateDigests } from './state_digest.ts'
import type { SyncHandle, SyncStatus, Transport } from './types.ts'

/** What a tap asks for is drawn first; then it is counted. */
const AFTER_DRAWN_MS = 80
const AFTER_CHANGE_MS = 300

/** What moves photos is fetched with the first of them: the first tick must not wait for it. */
const lateUpload: Upload = async (...one) => (await import('./tus_upload.ts')).tusUpload(...one)
const fetching = () => import('./fetch_photos.ts')

export type SyncOptions = {
  readonly name: string
  readonly read: () => ClockReading
  readonly heardServer: (at: ClockReading, server_ms: number, within_ms: number) => void
  readonly occasions?: Occasions
  readonly alone?: Alone
  readonly chance?: () => number
  readonly upload?: Upload
}

export function startSync(store: PhoneStore, transport: Transport, options: SyncOptions): SyncHandle {
  const sync = new PhoneSync(store, transport, options)
  sync.begin()
  return sync
}

class PhoneSync implements SyncHandle {
  readonly status: ReadonlySignal<SyncStatus>
  private readonly now = signal<SyncStatus>(FIRST_STATUS)
  private readonly store: PhoneStore
  private readonly door: Door
  private readonly round: Round
  private readonly occasions: Occasions
  private readonly alone: Alone
  private readonly chance: () => number
  private readonly ends: (() => void)[] = []
  private running: Promise<void> | undefined
  private callOff: () => void = () => {}
  private callOffLook: () => void = () => {}
  private looks = false
  private failures = 0

  constructor(store: PhoneStore, transport: Transport, options: SyncOptions) {
    this.status = this.now
    this.store = store
    this.door = doorOf(transport, store)
    const { read, heardServer } = options
    const { upload = lateUpload } = options
    this.round = { store, door: this.door, read, heardServer, stateDigestOf: stateDigests(store), upload }
    this.occasions = options.occasions ?? browserOccasions()
    this.alone = options.alone ?? aloneByLocks(options.name)
    this.chance = options.chance ?? Math.random
  }

  begin(): void {
    this.ends.push(
      this.store.onChange(() => this.changed()),
      this.occasions.begin((occasion) => this.due(occasion)),
    )
    void this.recount().catch(() => undefined) // counted at once: the network may be slow
  }

  /** A failure waits out its backoff, unless the world changed: the network came, the person returned. */
  private due(occasion: Occasion): void {
    if (occasion === 'beat' && this.failures > 0) return
    void this.syncNow()
  }

  /** Counts the first change soon, so that nobody reads 'all at the office'; syncs a moment later, for all. */
  private changed(): void {
    if (this.looks) return
    this.looks = true
    const callOffCount = this.occasions.later(
      () => void this.recount().catch(() => undefined),
      AFTER_DRAWN_MS,
    )
    const callOffSync = this.occasions.later(() => {
      this.looks = false
      void this.look()
    }, AFTER_CHANGE_MS)
    this.callOffLook = () => {
      callOffCount()
      callOffSync()
    }
  }

  private async look(): Promise<void> {
    await this.recount().catch(() => undefined) // a store that fails says so by its own health
    const { entries, photos } = this.now.value.onThisPhone
    if ((entries > 0 || photos > 0) && this.failures === 0 && this.running === undefined) await this.syncNow()
  }

  syncNow(): Promise<void> {
    this.running ??= this.run().finally(() => {
      this.running = undefined
    })
    return this.running
  }

  async setShopNetwork(on: boolean): Promise<void> {
    await this.store.setSetting('shop_network', on)
    await this.recount()
    await this.syncNow()
  }

  async handIn(): Promise<Blob> {
    const { handInOf } = await import('./hand_in.ts')
    return handInOf(this.store, this.round.read().at_ms)
  }

  fetchThumb(thumb: string): Promise<Blob | undefined> {
    return this.ifConnected(async () => (await fetching()).fetchThumb(this.store, this.door, thumb))
  }

  fetchPhoto(sha256: string): Promise<Blob | undefined> {
    return this.ifConnected(async () => (await fetching()).fetchPhoto(this.store, this.door, sha256))
  }

  stop(): void {
    this.callOff()
    this.callOffLook()
    for (const end of this.ends) end()
  }

  private async ifConnected(work: () => Promise<Blob | undefined>): Promise<Blob | undefined> {
    if (!(await this.isOn())) return undefined
    return work().catch(() => undefined) // not here yet: the screen says so, and asks again when it is looked at
  }

  private async isOn(): Promise<boolean> {
    return (await this.store.setting('shop_network')) !== false
  }

  private async run(): Promise<void> {
    this.callOff()
    try {
      const outcome = await this.outcome()
      await this.recount(outcome)
      this.plan(outcome)
      if (this.wasPairedMeanwhile(outcome)) await this.run()
    } catch (error) {
      // The store itself failed: say it, keep what is shown, try again at the next occasion.
      this.now.value = { ...this.now.value, ...outcomeOf(error) }
    }
  }

  private async outcome(): Promise<Outcome> {
    if (this.store.identity()?.state !== 'paired') return { state: this.unpaired(), trouble: NO_TROUBLE }
    if (!(await this.isOn())) return { state: 'offline', trouble: { code: 'shop_network_off', message: '' } }
    try {
      this.now.value = { ...this.now.value, state: 'syncing' }
      await this.alone(() => runRound(this.round))
      return { state: 'idle', trouble: NO_TROUBLE }
    } catch (error) {
      return this.told(outcomeOf(error))
    }
  }

  /** The office let this phone in while the sync that found it unpaired was still running. */
  private wasPairedMeanwhile({ state, trouble }: Outcome): boolean {
    return state === 'not_paired' && trouble.code === '' && this.store.identity()?.state === 'paired'
  }

  private unpaired(): 'revoked' | 'not_paired' {
    return this.store.identity()?.state === 'revoked' ? 'revoked' : 'not_paired'
  }

  /** A revoked phone stays so over restarts, offline too: its records wait for a hand-in. */
  private async told(outcome: Outcome): Promise<Outcome> {
    const key = this.store.sync.key()
    if (outcome.state === 'revoked' && key !== undefined)
      await this.store.sync.saveKey({ ...key, state: 'revoked' })
    return outcome
  }

  private plan({ state }: Outcome): void {
    const off = !this.now.value.shopNetwork
    this.failures = state === 'idle' || off ? 0 : this.failures + 1
    const isLasting = off || state === 'revoked' || state === 'not_paired'
    if (this.failures > 0 && !isLasting) this.retryIn(backoffMs(this.failures, this.chance()))
  }

  private retryIn(ms: number): void {
    this.callOff()
    this.callOff = this.occasions.later(() => void this.syncNow(), ms)
  }

  private async recount(outcome: Partial<Outcome> = {}): Promise<void> {
    const seen = await counted(this.store)
    this.now.value = { ...this.now.value, ...seen, ...outcome }
  }
}
