/** Standing conditions: what holds until it is cleared. */
import type { ConditionDoc } from '../method.ts'
import type { ConditionState } from '../state.ts'
import { type Found, found } from './finding.ts'
import { type Ground, jobRegister, stepRegister } from './ground.ts'
import { hashesOf } from './order.ts'
import { doneOf } from './steps.ts'

/** One row for each id, by the first pinned method that has it. */
export function conditionsOf(ground: Ground): ConditionState[] {
  const docs = ground.pinned.methods.flatMap((method) => method.conditions)
  return docs
    .filter((doc, index) => docs.findIndex((other) => other.id === doc.id) === index)
    .map((doc) => ({
      ...(doc.set_by === 'heat_run' ? heated(ground, doc) : stepped(ground, doc)),
      asked: jobRegister(ground, 'condition', doc.id)?.shown?.hash ?? '',
    }))
}

type Stands = Omit<ConditionState, 'asked'>

/** A begun run is hot until its `cold`. */
function heated(ground: Ground, { id }: ConditionDoc): Stands {
  const hot = ground.runs.runs.filter(({ state }) => !state.moments.includes('cold'))
  return { id, on: hot.length > 0, by: hashesOf(hot.map((run) => run.on)) }
}

/** The last done step, in method order, that sets or clears it decides; one that does both clears it. */
function stepped(ground: Ground, { id }: ConditionDoc): Stands {
  const deciding = [...ground.pinned.steps]
    .reverse()
    .find(
      ({ method, step }) =>
        (step.sets.includes(id) || step.clears.includes(id)) && doneOf(ground, method.id, step.id) === 'done',
    )
  if (deciding === undefined) return { id, on: false, by: [] }
  const at = { method: deciding.method.id, step: deciding.step.id, ask: '' }
  const tick = stepRegister(ground, 'tick', at)?.answer
  return { id, on: !deciding.step.clears.includes(id), by: tick === undefined ? [] : [tick.hash] }
}

/** Conditions, of a pinned method or not, that whoever looked last found gone. */
export function conditionFindings({ registers }: Ground): Found[] {
  return [...registers.values()].flatMap(({ shown }) =>
    shown?.kind === 'condition' && !shown.body.holds
      ? [found('condition_gone', [shown.body.condition], [shown.hash])]
      : [],
  )
}
