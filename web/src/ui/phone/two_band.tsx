// Above the next act: two people said different things at a step, and nobody has settled it.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { contradictionsOf } from '../../core/views/two_values_view.ts'
import { Mark } from '../parts/mark.tsx'
import { stepWords } from '../words/en_step.ts'
import { capital } from '../words/format.ts'
import { valueWords } from './made_words.ts'
import { paths } from './router.ts'
import './step_parts.css'

export function TwoBand({ card, step }: { card: Card; step: string }): JSX.Element {
  const elsewhere = contradictionsOf(card).filter(
    ({ place }) => `${place.method.id}/${place.step.id}` !== step,
  )
  return (
    <>
      {elsewhere.map(({ place, ask, point, name, standing }) => (
        <a
          key={`${place.method.id}/${place.step.id}/${ask}/${point}`}
          class="two-band"
          href={paths.step(card.job, place.method.id, place.step.id)}
        >
          <Mark name="finding" />
          <span>
            <strong>{stepWords.two.band(place.number)}</strong>
            <small>
              {capital(name)}: {standing.map((known) => valueWords(card, known)).join(' / ')}.{' '}
              {stepWords.two.bandLine}
            </small>
          </span>
          <Mark name="onward" />
        </a>
      ))}
    </>
  )
}
