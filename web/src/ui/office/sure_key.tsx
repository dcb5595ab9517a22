// A key for what cannot be taken back: it asks first, and says there why it was not taken.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { ActWords } from './forms.tsx'
import type { Act } from './use_act.ts'

type SureProps = {
  act: Act
  /** On the key that asks, and on the one that does it. */
  name: string
  /** The first key's name where several stand on a page. */
  label: string
  sure: string
  keep: string
  onSure: () => void
}

export function SureKey({ act, name, label, sure, keep, onSure }: SureProps): JSX.Element {
  const [asks, setAsks] = useState(false)
  if (!asks) {
    return (
      <button type="button" class="key key-plain" aria-label={label} onClick={() => setAsks(true)}>
        <span>{name}</span>
      </button>
    )
  }
  return (
    <div class="o-sure">
      <p>{sure}</p>
      <button type="button" class="key key-stop" onClick={onSure}>
        <span>{name}</span>
      </button>
      <button type="button" class="key key-plain" onClick={() => setAsks(false)}>
        <span>{keep}</span>
      </button>
      <ActWords state={act.state} />
    </div>
  )
}
