/** The pinned heat plan as an input of the computation that is about it. */
import type { Plan } from '../computations/plan_figures.ts'
import type { ComputeAsk } from '../method.ts'
import type { Card, StepPlace } from './card.ts'
import { planFor } from './card_plans.ts'

/** The heat plan that the office pinned to the zone that a plan is asked for. */
export function planOf(
  card: Card,
  { method }: StepPlace,
  { computation, zone }: ComputeAsk,
): { readonly input: Plan; readonly sha256: string } | undefined {
  if (computation !== 'heat_plan' || !zone) return undefined
  const found = planFor(card.plans, method.id, zone)
  if (found?.figures === undefined) return undefined
  return { input: { kind: 'plan', plan: found.plan, figures: found.figures }, sha256: found.sha256 }
}
