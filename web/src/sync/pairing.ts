/** Pairing: a typed code spent by a tap, the office's answer, and the card that lets this phone in. */
import { type ReadonlySignal, signal } from '@preact/signals'
import type { PhoneStore } from '../store/index.ts'
import type { KeyRow } from '../store/tables.ts'
import { type Door, doorOf, Refused } from './door.ts'
import { type Pairing, type PairingView, type Transport, TransportFault } from './types.ts'

const POLL_MS = 2_000

/** What the server says of this device. */
type DeviceMe = {
  readonly device: string
  readonly state: 'waiting' | 'paired' | 'refused' | 'revoked'
  readonly check: string
  readonly name: string
  readonly seal_public?: string
  readonly card?: string
  readonly card_signature?: string
}

export function startPairing(store: PhoneStore, transport: Transport): Pairing {
  return new PhonePairing(store, transport)
}

class PhonePairing implements Pairing {
  readonly view: ReadonlySignal<PairingView>
  private readonly now: { value: PairingView }
  private readonly store: PhoneStore
  private readonly door: Door
  private timer: ReturnType<typeof setInterval> | undefined

  constructor(store: PhoneStore, transport: Transport) {
    const now = signal<PairingView>(firstView(store.sync.key()))
    this.view = now
    this.now = now
    this.store = store
    this.door = doorOf(transport, store)
    if (now.value.at === 'waiting') this.keepAsking()
  }

  async claim(code: string, name: string): Promise<void> {
    const key = this.key()
    await this.told(async () => {
      const json = { code: codeTyped(code), public_key: key.public_key, name: name.trim() }
      await this.take(await this.door.json<DeviceMe>({ method: 'POST', path: '/api/pair/claim', json }))
    })
    if (this.now.value.at === 'waiting') this.keepAsking()
  }

  async poll(): Promise<void> {
    if (this.now.value.at !== 'waiting') return
    try {
      await this.take(await this.door.json<DeviceMe>({ method: 'GET', path: '/api/pair/state' }))
    } catch (error) {
      if (!(error instanceof TransportFault)) this.now.value = refusedView(error)
    }
  }

  async pairDemo(): Promise<boolean> {
    const json = { public_key: this.key().public_key }
    try {
      await this.take(await this.door.json<DeviceMe>({ method: 'POST', path: '/api/demo/pair', json }))
    } catch (error) {
      if (error instanceof Refused) return false // a server that is no demo has no such route
      throw error
    }
    return this.view.value.at === 'paired'
  }

  stop(): void {
    clearInterval(this.timer)
  }

  private keepAsking(): void {
    clearInterval(this.timer)
    this.timer = setInterval(() => void this.poll(), POLL_MS)
  }

  private key(): KeyRow {
    const key = this.store.sync.key()
    if (key === undefined) throw new Error('pairing: an open store has a key')
    return key
  }

  private async told(work: () => Promise<void>): Promise<void> {
    try {
      await work()
    } catch (error) {
      this.now.value = refusedView(error)
    }
  }

  /** Keeps what the server said before the screen says it. */
  private async take(me: DeviceMe): Promise<void> {
    if (me.state === 'refused' || me.state === 'revoked') {
      this.stop()
      await this.store.sync.saveKey({ ...this.key(), state: 'key_made' })
      this.now.value = { at: 'refused', code: me.state, message: '' }
      return
    }
    await this.store.sync.saveKey({ ...this.key(), ...kept(me) })
    if (me.state === 'paired') this.stop()
    this.now.value = me.state === 'paired' ? { at: 'paired' } : { at: 'waiting', check: me.check }
  }
}

function kept(me: DeviceMe): Partial<KeyRow> {
  const { device, name, check, card = '', card_signature = '', seal_public = '' } = me
  return {
    device,
    name,
    check,
    card,
    card_signature,
    seal: seal_public,
    state: me.state === 'paired' ? 'paired' : 'waiting',
  }
}

function firstView(key: KeyRow | undefined): PairingView {
  if (key?.state === 'paired' || key?.state === 'revoked') return { at: 'paired' }
  return key?.state === 'waiting' ? { at: 'waiting', check: key.check } : { at: 'start' }
}

function refusedView(error: unknown): PairingView {
  if (error instanceof Refused) return { at: 'refused', code: error.code, message: error.message }
  if (error instanceof TransportFault) return { at: 'refused', code: 'no_answer', message: error.message }
  throw error
}

/** As people type it: blanks and dashes between the characters, small letters. */
function codeTyped(code: string): string {
  return code.replace(/[\s-]/g, '').toUpperCase()
}
