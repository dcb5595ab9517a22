// What the phone's screens stand on; main.tsx makes it and hands it in.
import type { ReadonlySignal } from '@preact/signals'
import type { Device } from '../../device/types.ts'
import type { Store } from '../../store/types.ts'
import type { Calls } from '../../sync/calls.ts'
import type { SyncHandle } from '../../sync/types.ts'

export type PhoneServices = {
  readonly store: Store
  readonly sync: SyncHandle
  readonly device: Device
  /** A new version waits to be let in, between steps and never during a heat run. */
  readonly update: { readonly waiting: ReadonlySignal<boolean>; letIn(): void }
  /** Shows the shop network switch and the drawn demo photos. */
  readonly demo: boolean
  /** Where a phone that is not paired goes; the pairing screens are the door's. */
  readonly pairingPath: string
  /** Leaves the store of an office that is no more, and begins a new one beside it. */
  readonly startAnew: () => void
  /** What calls this phone by web push; fetched with its page. */
  readonly calls?: () => Promise<Calls>
}
