/** What the sync tells the screens, and what it asks of a transport. */
import type { ReadonlySignal } from '@preact/signals'
import type { Unsent } from '../store/types.ts'

/**
 * `idle`: all said and heard. `syncing`: a round trip runs. `offline`: no answer, or the shop network is
 * switched off here. `refused`: the server would not hear the request (`trouble` says why).
 * `update_needed`: this app is older than the server's protocol, or met an entry that it does not know.
 * `revoked`: the office took this phone off; records stay, and can be handed in as a file.
 * `not_paired`: no office knows this phone yet. `started_anew`: another store answers under this address.
 */
export type SyncState =
  | 'idle'
  | 'syncing'
  | 'offline'
  | 'refused'
  | 'update_needed'
  | 'revoked'
  | 'not_paired'
  | 'started_anew'

export type SyncStatus = {
  readonly state: SyncState
  readonly onThisPhone: Unsent
  /** Until what waits here was counted first, `onThisPhone` says nothing. */
  readonly uncounted?: boolean
  /** When the server was last heard, by its own clock; 0 = never. */
  readonly heard_ms: number
  /** The shop network switch of this device. */
  readonly shopNetwork: boolean
  /** The server's refusal or the cause of being offline; '' when there is none. */
  readonly trouble: { readonly code: string; readonly message: string }
  /** Records of this phone that the office set aside or refused. */
  readonly setAside: number
  readonly refused: number
  /** An entry of a kind or version that this app does not know was met: it is kept and sent on. */
  readonly unknownMet: boolean
}

export interface SyncHandle {
  readonly status: ReadonlySignal<SyncStatus>
  /** Runs one sync now (or joins the one that runs); resolves when it is through, never rejects. */
  syncNow(): Promise<void>
  setShopNetwork(on: boolean): Promise<void>
  /** The unsent records, refused texts and unsent photos of this phone as one file for the office. */
  handIn(): Promise<Blob>
  /** A photo or thumbnail of another phone, fetched when first looked at and then kept. */
  fetchThumb(thumb: string): Promise<Blob | undefined>
  fetchPhoto(sha256: string): Promise<Blob | undefined>
  stop(): void
}

/** How pairing stands; the check digits are for the office to compare. */
export type PairingView =
  | { readonly at: 'start' }
  | { readonly at: 'waiting'; readonly check: string }
  | { readonly at: 'paired' }
  | { readonly at: 'refused'; readonly code: string; readonly message: string }

export interface Pairing {
  readonly view: ReadonlySignal<PairingView>
  /** Spends the code by a POST; make the call on a tap. */
  claim(code: string, name: string): Promise<void>
  /** Asks the office's answer once; also runs every 2 s while waiting. */
  poll(): Promise<void>
  /** Pairs by the demo's own route, where the server has one; false where it has none. */
  pairDemo(): Promise<boolean>
  stop(): void
}

export type Answer = {
  readonly status: number
  readonly headers: { get(name: string): string | null }
  readonly bytes: ArrayBuffer
}

/** One request that got an answer, or a rejection with TransportFault when none came. */
export interface Transport {
  send(request: {
    readonly method: 'GET' | 'POST' | 'PUT' | 'DELETE'
    readonly path: string
    readonly json?: unknown
    readonly bytes?: ArrayBuffer
    readonly headers?: Readonly<Record<string, string>>
  }): Promise<Answer>
}

export class TransportFault extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options)
    this.name = 'TransportFault'
  }
}
