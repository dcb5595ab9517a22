// A step that is done: by whom, both names where two ticked it, and the way to strike it.
import type { JSX } from 'preact'
import { type Card, knownOf, registerOf, type StepPlace } from '../../core/views/card.ts'
import { mayStrike } from '../../core/views/records_view.ts'
import { differ } from '../../core/views/two_values_view.ts'
import { KeyLink } from '../parts/key.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { stepWords, strikeWords } from '../words/en_step.ts'
import { when } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { paths } from './router.ts'
import './step_parts.css'

type DoneProps = { card: Card; place: StepPlace; beforeHold: boolean }

export function StepDone({ card, place, beforeHold }: DoneProps): JSX.Element | null {
  const { me, services } = usePhone()
  if (place.state.done === '') return null
  const standing = registerOf(card, place, 'tick', '')?.standing ?? []
  const ticks = standing
    .flatMap((hash) => knownOf(card, hash) ?? [])
    .sort((a, b) => a.entry.at_ms - b.entry.at_ms)
  const apart = differ(ticks)
  const now_ms = services.device.clock.now().at_ms
  return (
    <div class="step-made">
      {apart && <p class="in-stop">{stepWords.two.line(place.step.title)}</p>}
      {ticks.map(({ entry }) => (
        <div key={entry.hash} class="step-tick">
          {entry.kind === 'tick' && (
            <p>
              <StateWord state={apart ? 'finding' : entry.body.value} word={w.states[entry.body.value]} />{' '}
              <span class="label soft">
                {w.common.by(personName(card, entry.by), when(entry.at_ms, now_ms))}
              </span>
              {entry.body.reason && <span class="step-reason">{entry.body.reason}</span>}
            </p>
          )}
          {mayStrike(entry, me()) ? (
            <KeyLink
              href={paths.strike(card.job, entry.hash)}
              label={strikeWords.strikeThis(w.card.step(place.number).toLowerCase())}
            >
              {strikeWords.strike}
            </KeyLink>
          ) : null}
        </div>
      ))}
      {beforeHold && <p class="in-stop">{w.card.beforeHold}</p>}
    </div>
  )
}
