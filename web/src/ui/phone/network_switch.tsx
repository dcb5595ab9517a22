// Demo only: cuts this phone's sync, so that the card can be tried offline without tools.
import type { JSX } from 'preact'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { usePhone } from './context.ts'

export function NetworkSwitch(): JSX.Element | null {
  const { sync, demo } = usePhone().services
  if (!demo) return null
  const on = sync.status.value.shopNetwork
  const words = w.phone.network
  return (
    <button
      type="button"
      class="key key-plain key-row"
      role="switch"
      aria-checked={on}
      aria-label={words.name}
      onClick={() => void sync.setShopNetwork(!on)}
    >
      <Mark name={on ? 'done' : 'open'} />
      <span>
        {words.name}: {on ? words.on : words.off}
        <small>{on ? words.why : words.offWhy}</small>
      </span>
    </button>
  )
}
