// Notes and deviations of a step, each with its writer and the way to strike it.
import type { JSX } from 'preact'
import type { Entry } from '../../core/entries.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { mayStrike } from '../../core/views/records_view.ts'
import { KeyLink } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { stepWords } from '../words/en_step.ts'
import { clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { paths } from './router.ts'
import './step_parts.css'

type Written = Extract<Entry, { kind: 'note' | 'deviation' }>

function writtenAt(card: Card, place: StepPlace): readonly Written[] {
  return [...card.state.deviations, ...card.state.notes].flatMap((hash) => {
    const entry = card.entries.get(hash)?.entry
    if (entry?.kind !== 'note' && entry?.kind !== 'deviation') return []
    const { method, step } = entry.body
    return method === place.method.id && step === place.step.id ? [entry as Written] : []
  })
}

export function WrittenHere({ card, place }: { card: Card; place: StepPlace }): JSX.Element | null {
  const me = usePhone().me()
  const written = writtenAt(card, place)
  if (written.length === 0) return null
  return (
    <section>
      <h2 class="label-head">{stepWords.written.title}</h2>
      <ul class="lines">
        {written.map((entry) => (
          <li key={entry.hash} class="written">
            <Mark name={entry.kind === 'note' ? 'note' : 'deviation'} />
            <span>
              {entry.body.text}
              {entry.kind === 'deviation' && entry.body.passes_hold && ` (${stepWords.written.passes})`}
              {' · '}
              <span class="soft made-by">
                {w.common.by(personName(card, entry.by), clockTime(entry.at_ms))}
              </span>
            </span>
            {mayStrike(entry, me) && (
              <KeyLink
                href={paths.strike(card.job, entry.hash)}
                label={stepWords.value.strikeOf(entry.body.text)}
              >
                {stepWords.value.strike}
              </KeyLink>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}
