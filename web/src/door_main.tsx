// Composition root of the phone's door. Loaded only where a phone is not let in yet, or cannot be.
import { render } from 'preact'
import { doorstepOf, offerInstall } from './device/install.ts'
import type { PhoneStore } from './store/index.ts'
import type { Pairing } from './sync/types.ts'
import { PairPhone } from './ui/door/pair_phone.tsx'
import { StoreFailed } from './ui/door/store_failed.tsx'

const NO_CLAIM = async (): Promise<void> => {}

/** The page of a phone that asks to be let in; returns how to take it away. */
export function showDoor(root: HTMLElement, store: PhoneStore, pairing: Pairing): () => void {
  const Door = () => (
    <PairPhone
      view={pairing.view.value}
      doorstep={doorstepOf(store.health.value === 'lost')}
      onClaim={(code, name) => pairing.claim(code, name)}
      onInstall={offerInstall.value}
    />
  )
  render(<Door />, root)
  return () => render(null, root)
}

/** The page of an address that gives no key, no camera and no lasting store. */
export function showInsecure(root: HTMLElement): void {
  render(<PairPhone view={{ at: 'start' }} doorstep={doorstepOf(false)} onClaim={NO_CLAIM} />, root)
}

export function showStoreFailed(root: HTMLElement, words: string): void {
  render(<StoreFailed words={words} />, root)
}
