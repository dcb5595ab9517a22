// Composition root of the phone: store, clocks, sync and doors, then the screens.
import { computed } from '@preact/signals'
import { type JSX, render } from 'preact'
import { registerWorker } from './device/app_update.ts'
import { startDevice } from './device/index.ts'
import { doorstepOf, offerInstall } from './device/install.ts'
import { openStore, type PhoneStore } from './store/index.ts'
import { beginNewStore, storeName } from './store/store_name.ts'
import { fetchTransport } from './sync/fetch_transport.ts'
import { startPairing } from './sync/pairing.ts'
import { startSync } from './sync/sync.ts'
import { type Pairing, TransportFault } from './sync/types.ts'
import { PairPhone } from './ui/door/pair_phone.tsx'
import { StoreFailed } from './ui/door/store_failed.tsx'
import { PhoneApp } from './ui/phone/app.tsx'
import './ui/style/base.css'
import './ui/parts/parts.css'
import './ui/phone/phone.css'

const NO_CLAIM = async (): Promise<void> => {}

export async function startPhone(root: HTMLElement): Promise<void> {
  const update = registerWorker()
  if (!globalThis.isSecureContext) {
    render(<PairPhone view={{ at: 'start' }} doorstep={doorstepOf(false)} onClaim={NO_CLAIM} />, root)
    return
  }
  try {
    await startPaired(root, await openStore(storeName()), update)
  } catch (error) {
    render(<StoreFailed words={error instanceof Error ? error.message : String(error)} />, root)
    throw error
  }
}

type Update = ReturnType<typeof registerWorker>

async function startPaired(root: HTMLElement, store: PhoneStore, update: Update): Promise<void> {
  const device = await startDevice(store)
  const pairing = startPairing(store, fetchTransport())
  const { now, heardServer } = device.clock
  const sync = startSync(store, fetchTransport(), { name: storeName(), read: now, heardServer })
  const demo = await isDemoPhone(store, pairing)
  const waiting = computed(() => update.view.value === 'waiting')
  const services = {
    store,
    sync,
    device,
    update: { waiting, letIn: update.letIn },
    demo,
    pairingPath: '/',
    startAnew,
  }
  const isIn = computed(() => pairing.view.value.at === 'paired' || store.identity()?.state === 'revoked')
  let leave = (): void => {}
  isIn.subscribe((now) => {
    leave()
    leave = show(root, now ? <PhoneApp services={services} /> : <Door store={store} pairing={pairing} />)
    if (now) void sync.syncNow()
  })
}

/** The office's store was made anew: this phone begins a new one beside the old, and is let in again. */
function startAnew(): void {
  beginNewStore(Date.now())
  location.reload()
}

function show(root: HTMLElement, page: JSX.Element): () => void {
  render(page, root)
  return () => render(null, root)
}

function Door({ store, pairing }: { store: PhoneStore; pairing: Pairing }) {
  const install = offerInstall.value
  return (
    <PairPhone
      view={pairing.view.value}
      doorstep={doorstepOf(store.health.value === 'lost')}
      onClaim={(code, name) => pairing.claim(code, name)}
      onInstall={install}
    />
  )
}

/** In the demo the page lets itself in at first open; what it found is kept for starts without a network. */
async function isDemoPhone(store: PhoneStore, pairing: Pairing): Promise<boolean> {
  if (pairing.view.value.at === 'paired') return (await store.setting('demo')) === true
  try {
    const paired = await pairing.pairDemo()
    if (paired) await store.setSetting('demo', true)
    return paired
  } catch (error) {
    if (error instanceof TransportFault) return false
    throw error
  }
}
