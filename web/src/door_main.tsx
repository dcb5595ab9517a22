// Composition root of the phone's door. Loaded only where a phone is not let in yet, or cannot be.
import { signal } from '@preact/signals'
import { render } from 'preact'
import { doorstepOf, offerInstall } from './device/install.ts'
import type { PhoneStore } from './store/index.ts'
import type { Pairing } from './sync/types.ts'
import { PairPhone } from './ui/door/pair_phone.tsx'
import { StoreFailed } from './ui/door/store_failed.tsx'

const NO_CLAIM = async (): Promise<void> => {}

/** The page of a phone that asks to be let in; returns how to take it away. */
export function showDoor(root: HTMLElement, store: PhoneStore, pairing: Pairing): () => void {
  const isDemo = signal(false)
  if (store.health.value === 'lost') void fetchIsDemo().then((is) => (isDemo.value = is))
  const Door = () => (
    <PairPhone
      view={pairing.view.value}
      doorstep={doorstepOf(store.health.value === 'lost')}
      onClaim={(code, name) => pairing.claim(code, name)}
      onInstall={offerInstall.value}
      onLetIn={isDemo.value ? () => void letIn(store, pairing) : undefined}
    />
  )
  render(<Door />, root)
  return () => render(null, root)
}

async function fetchIsDemo(): Promise<boolean> {
  try {
    return ((await (await fetch('/api/me')).json()) as { demo?: boolean }).demo === true
  } catch {
    return false // out of reach: a code would not be taken now either
  }
}

/** In the demo nobody needs a code; the page begins again with what the demo's phones have. */
async function letIn(store: PhoneStore, pairing: Pairing): Promise<void> {
  if (!(await pairing.pairDemo())) return
  await store.setSetting('demo', true)
  location.reload()
}

/** The page of an address that gives no key, no camera and no lasting store. */
export function showInsecure(root: HTMLElement): void {
  render(<PairPhone view={{ at: 'start' }} doorstep={doorstepOf(false)} onClaim={NO_CLAIM} />, root)
}

export function showStoreFailed(root: HTMLElement, words: string): void {
  render(<StoreFailed words={words} />, root)
}
