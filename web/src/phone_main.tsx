// Composition root of the phone: store, clocks, sync and doors, then the screens.
import { computed } from '@preact/signals'
import { render } from 'preact'
import { registerWorker } from './device/app_update.ts'
import { startDevice } from './device/index.ts'
import { openStore, type PhoneStore } from './store/index.ts'
import { beginNewStore, storeName } from './store/store_name.ts'
import { fetchTransport } from './sync/fetch_transport.ts'
import { startPairing } from './sync/pairing.ts'
import { startSync } from './sync/sync.ts'
import { type Pairing, TransportFault } from './sync/types.ts'
import { PhoneApp } from './ui/phone/app.tsx'
import { go } from './ui/phone/router.ts'
import type { PhoneServices } from './ui/phone/services.ts'
import './ui/style/base.css'
import './ui/parts/parts.css'
import './ui/phone/phone.css'

export async function startPhone(root: HTMLElement): Promise<void> {
  const update = registerWorker()
  followNotices()
  if (!globalThis.isSecureContext) {
    const { showInsecure } = await import('./door_main.tsx')
    showInsecure(root)
    return
  }
  try {
    await startPaired(root, await openStore(storeName()), update)
  } catch (error) {
    const { showStoreFailed } = await import('./door_main.tsx')
    showStoreFailed(root, error instanceof Error ? error.message : String(error))
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
    calls: callsOf(store),
  }
  const isIn = computed(() => pairing.view.value.at === 'paired' || store.identity()?.state === 'revoked')
  let leave = (): void => {}
  const turn = async (now: boolean): Promise<void> => {
    const showOther = now ? showCard(services) : (await import('./door_main.tsx')).showDoor
    leave()
    leave = showOther(root, store, pairing)
    if (now) void sync.syncNow()
  }
  let turned = Promise.resolve()
  isIn.subscribe((now) => {
    turned = turned.then(() => turn(now))
  })
  await turned // the first page has to stand, or its absence be told
}

/** Made once, with its page; what is armed is kept, so that a heat run's page says it without a network. */
function callsOf(store: PhoneStore): NonNullable<PhoneServices['calls']> {
  let made: ReturnType<NonNullable<PhoneServices['calls']>> | undefined
  const load = async () =>
    (await import('./phone_calls.ts')).phoneCalls(({ runs }) => store.setSetting('called_for_runs', runs))
  return () => {
    made ??= load()
    return made
  }
}

/** A notice was tapped while the app was open: the service worker says which page it is about. */
function followNotices(): void {
  if (!('serviceWorker' in navigator)) return
  navigator.serviceWorker.addEventListener('message', ({ data }: MessageEvent) => {
    const { type, path } = (data ?? {}) as { type?: unknown; path?: unknown }
    if (type === 'show' && typeof path === 'string' && path !== '/') go(path)
  })
}

function showCard(services: PhoneServices): (root: HTMLElement) => () => void {
  return (root) => {
    render(<PhoneApp services={services} />, root)
    return () => render(null, root)
  }
}

/** Cut off for good: this phone begins a new store beside the old one, and is let in again. */
function startAnew(): void {
  beginNewStore(Date.now())
  location.assign('/')
}

/** In the demo the page lets itself in at first open; what it found is kept for starts without a network. */
async function isDemoPhone(store: PhoneStore, pairing: Pairing): Promise<boolean> {
  if (pairing.view.value.at === 'paired') return (await store.setting('demo')) === true
  if (store.health.value === 'lost') return false // a loss is said first; the door lets in again by a tap
  try {
    const paired = await pairing.pairDemo()
    if (paired) await store.setSetting('demo', true)
    return paired
  } catch (error) {
    if (error instanceof TransportFault) return false
    throw error
  }
}
