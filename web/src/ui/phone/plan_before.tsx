// Before switch-on: what the pinned plan says, and the set-up in mm that its figures hold for.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { planFor } from '../../core/views/card_plans.ts'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { forecastWords as words } from '../words/en_forecast.ts'
import { PlanFacts } from './forecast_part.tsx'
import { PlanLayoutPart } from './plan_layout.tsx'

type Props = { card: Card; method: string; zone: string; purpose: 'removal' | 'cure' }

export function PlanBefore({ card, method, zone, purpose }: Props): JSX.Element | null {
  if (card.plans === undefined) return null
  const plan = planFor(card.plans, method, zone)
  if (plan === undefined) return purpose === 'cure' ? null : <p class="soft">{words.none}</p>
  if (plan.set === undefined)
    return (
      <>
        <p class="forecast-head">{plan.sentence}</p>
        <StateWord state={plan.here ? 'finding' : 'waits'} word={plan.here ? words.newer : words.notHere} />
      </>
    )
  return (
    <section class="forecast" aria-label={words.head}>
      <p class="forecast-head">{plan.set.answer.sentence}</p>
      <p class="label soft">{w.common.advice}</p>
      <PlanLayoutPart set={plan.set} />
      <details class="forecast-rests">
        <summary>{words.rests}</summary>
        <PlanFacts set={plan.set} />
      </details>
    </section>
  )
}
