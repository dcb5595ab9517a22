// A new version waits to be let in: between two steps, never during a heat run.
import type { JSX } from 'preact'
import { Key } from '../parts/key.tsx'
import { selfWords } from '../words/en_self.ts'
import { usePhone } from './context.ts'

export function UpdateNote({ hot }: { hot: boolean }): JSX.Element | null {
  const { update } = usePhone().services
  if (!update.waiting.value) return null
  const words = selfWords
  return (
    <section class="note-band">
      <p>
        <strong>{words.update}</strong>
      </p>
      <p>{hot ? words.updateHeld : words.updateWhy}</p>
      {!hot && <Key onPress={() => update.letIn()}>{words.updateKey}</Key>}
    </section>
  )
}
