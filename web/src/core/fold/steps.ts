/** Steps: done or not, what is open, how the hold stands, which needs are unmet. */
import type { HoldState, StepState } from '../state.ts'
import { askName, type Evidence, isAnswered, isInside } from './answers.ts'
import { passingDeviations } from './countersigns.ts'
import { type Ground, stepRegister } from './ground.ts'
import { unstruck } from './log.ts'
import type { PinnedStep } from './revisions.ts'

export function stepsOfCard(evidence: Evidence): StepState[] {
  return evidence.ground.pinned.steps.map((one) => stepState(evidence, one))
}

function stepState(evidence: Evidence, one: PinnedStep): StepState {
  const { ground } = evidence
  const at = { method: one.method.id, step: one.step.id }
  const open = one.step.asks.filter((ask) => !isAnswered(evidence, one, ask)).map((ask) => ask.id)
  return {
    ...at,
    done: doneOf(ground, at.method, at.step),
    tick: stepRegister(ground, 'tick', { ...at, ask: '' })?.shown?.hash ?? '',
    open,
    hold: holdOf(evidence, one, open),
    needs_open: one.step.needs.filter((need) => !isMet(ground, at.method, need)),
  }
}

export function doneOf(ground: Ground, method: string, step: string): StepState['done'] {
  const tick = stepRegister(ground, 'tick', { method, step, ask: '' })?.answer
  return tick?.kind === 'tick' ? tick.body.value : ''
}

function holdOf(evidence: Evidence, one: PinnedStep, open: readonly string[]): HoldState {
  if (!one.step.hold) return 'none'
  const { ground } = evidence
  if (open.length === 0 && one.step.asks.every((ask) => isInside(ground, one, ask))) return 'passed'
  return passingDeviations(ground, one).some(({ hash }) => isCovered(evidence, one, hash))
    ? 'deviation'
    : 'held'
}

/** Whether a deviation is countersigned, where the step demands it. */
function isCovered({ ground, counting }: Evidence, one: PinnedStep, deviation: string): boolean {
  if (one.step.hold_countersign === '') return true
  const name = askName({ method: one.method.id, step: one.step.id, ask: '' })
  return unstruck(ground.log, 'countersign').some(
    ({ hash, body }) => counting.has(hash) && askName(body) === name && body.saw.includes(deviation),
  )
}

/** `step` needs it done; `step@moment` an unaborted run begun there that has the moment. */
function isMet(ground: Ground, method: string, need: string): boolean {
  const [step = '', moment] = need.split('@')
  if (moment === undefined) return doneOf(ground, method, step) !== ''
  return ground.runs.runs.some(
    ({ state }) =>
      state.method === method &&
      state.step === step &&
      !state.aborted &&
      state.moments.some((each) => each === moment),
  )
}
