// Said before the step begins: how many people it takes, what they must hold, and who on the job does.
import type { JSX } from 'preact'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { type Takers, takersOf } from '../../core/views/who_view.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { stepWords } from '../words/en_step.ts'
import { listed } from '../words/format.ts'
import { doerName } from '../words/names.ts'
import { usePhone } from './context.ts'
import './step_parts.css'

export function WhoBand({ card, place }: { card: Card; place: StepPlace }): JSX.Element | null {
  const takers = takersOf(card, place, usePhone().me())
  const { people } = place.step
  if (people < 2 && takers.demands.length === 0) return null
  const lacks = !takers.mine && place.state.done === ''
  return (
    <div class="who in-ruled">
      <span class={lacks ? 'in-margin in-stop' : 'in-margin'}>
        <Mark name="person" />
      </span>
      {people > 1 && <p class="who-people">{w.card.people(people)}</p>}
      {takers.demands.length > 0 && <Demand takers={takers} lacks={lacks} />}
    </div>
  )
}

function Demand({ takers, lacks }: { takers: Takers; lacks: boolean }): JSX.Element {
  const words = stepWords.who
  const by = words.by(listed(takers.demands.map(doerName), 'or'))
  const names = takers.others.map((one) => one.name)
  if (takers.mine) {
    return (
      <p>
        <strong>{by}</strong> {words.you}
      </p>
    )
  }
  return (
    <p>
      <strong class={lacks ? 'in-stop' : ''}>
        {by} {lacks && words.notYou}
      </strong>{' '}
      {names.length === 0 ? words.nobody : words.onJob(names)}
    </p>
  )
}
