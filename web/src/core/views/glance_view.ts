/** What runs and is it safe here: conditions that hold, and whether pads are hot. */
import type { ConditionDoc } from '../method.ts'
import { type Card, methodsOf } from './card.ts'
import type { RunView } from './heat_view.ts'
import { isHot } from './statuses.ts'

export type ConditionView = {
  readonly id: string
  readonly name: string
  readonly on: boolean
  /** Whoever looked last found that it does not hold any more. */
  readonly gone: boolean
  readonly by_heat: boolean
}

export type SafetyView = {
  readonly hot: boolean
  /** The highest value last read in a hot run, scaled by `decimals` of its ask. */
  readonly temperature:
    | { readonly value: number; readonly decimals: number; readonly unit: string }
    | undefined
  readonly conditions: readonly ConditionView[]
  /** Positions with a piece lost inside that nobody has found: they stay in view. */
  readonly lost: readonly string[]
}

export function safetyOf(card: Card): SafetyView {
  const docs = new Map(methodsOf(card).flatMap((method) => method.conditions.map((one) => [one.id, one])))
  const gone = card.state.findings.filter(({ code }) => code === 'condition_gone').map(({ at }) => at[0])
  const conditions = card.state.conditions.map(({ id, on }) =>
    conditionView(docs.get(id), { id, on: on && !gone.includes(id), gone: gone.includes(id) }),
  )
  const run = card.hotRuns[0]
  const value = run && hottest(run)
  const { sensors_unit: unit, decimals } = run?.ask.settings ?? { sensors_unit: '', decimals: 0 }
  return {
    hot: card.state.runs.some(isHot),
    temperature: value === undefined ? undefined : { value, decimals, unit },
    conditions,
    lost: card.state.positions.filter(({ place }) => place === 'lost').map(({ position }) => position),
  }
}

/** The highest temperature last read in a hot run. */
function hottest(view: RunView): number | undefined {
  const values = view.sensors.flatMap((one) => (one.value === undefined ? [] : [one.value]))
  return values.length === 0 ? undefined : Math.max(...values)
}

type Stands = Pick<ConditionView, 'id' | 'on' | 'gone'>

function conditionView(doc: ConditionDoc | undefined, stands: Stands): ConditionView {
  return { ...stands, name: doc?.name ?? stands.id, by_heat: doc?.set_by === 'heat_run' }
}
