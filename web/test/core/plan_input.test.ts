// The pinned heat plan as an input of the computation that is about it.
import { describe, expect, it } from 'vitest'
import type { PlanFigures } from '../../src/core/computations/plan_figures.ts'
import type { ComputeAsk } from '../../src/core/method.ts'
import type { Card, StepPlace } from '../../src/core/views/card.ts'
import type { CardPlan } from '../../src/core/views/card_plans.ts'
import { planOf } from '../../src/core/views/plan_input.ts'

const figures = { model: 'coupled-plates-1', soak_s: 900 } as PlanFigures
const upper: CardPlan = {
  ...{ method: 'removal', zone: 'upper', plan: 'ab'.repeat(32), sha256: 'cd'.repeat(32) },
  ...{ name: 'upper joint', sentence: 'Workable in 23 min.', here: false },
}
const place = { method: { id: 'removal' } } as StepPlace
const asking = (computation: string, zone: string) => ({ computation, zone }) as ComputeAsk
const cardWith = (...plans: CardPlan[]) => ({ plans }) as unknown as Card

describe('the plan of a step', () => {
  it('is the one pinned to its zone, though its response set is not here yet', () => {
    const found = planOf(cardWith({ ...upper, figures }), place, asking('heat_plan', 'upper'))
    expect(found?.sha256).toBe(upper.sha256)
    expect(found?.input.figures).toBe(figures)
  })

  it('is none for another zone, another computation, or before its figures are told', () => {
    const card = cardWith({ ...upper, figures })
    expect(planOf(card, place, asking('heat_plan', 'post'))).toBeUndefined()
    expect(planOf(card, place, asking('heat_verdict', 'upper'))).toBeUndefined()
    expect(planOf(cardWith(upper), place, asking('heat_plan', 'upper'))).toBeUndefined()
  })
})
