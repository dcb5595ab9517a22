// '31 done · strike': for 20 s after a step is done, the way back stands on the next act.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { isStruck } from '../../core/views/card.ts'
import { Key } from '../parts/key.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { strikeWords } from '../words/en_step.ts'
import { usePhone } from './context.ts'
import { paths } from './router.ts'

export function JustDoneStrip({
  card,
  onGo,
}: {
  card: Card
  onGo: (path: string) => void
}): JSX.Element | null {
  const { justDone, services } = usePhone()
  const last = justDone.value
  /* Read so that the strip goes by itself with the heartbeat. */
  const { mono_ms } = services.device.clock.state.value.last
  if (last === undefined || last.job !== card.job || mono_ms > last.until_ms || isStruck(card, last.hash))
    return null
  return (
    <p class="strip" role="status">
      <StateWord state="done" word={strikeWords.undone(last.number)} />
      <Key
        onPress={() => onGo(paths.strike(card.job, last.hash))}
        label={strikeWords.strikeThis(w.card.step(last.number).toLowerCase())}
      >
        {strikeWords.strike}
      </Key>
    </p>
  )
}
