/** Steps: done or not, what is open, how the hold stands, which needs are unmet, what was put off. */
import type { HoldState, StepState } from '../state.ts'
import { type Evidence, isAnswered, isInside } from './answers.ts'
import { asksAsked, isAsked } from './asked.ts'
import { passingDeviations } from './countersigns.ts'
import { type Ground, stepRegister } from './ground.ts'
import { unstruck } from './log.ts'
import { grouped, hashesOf } from './order.ts'
import type { Register } from './registers.ts'
import { askName, type PinnedStep, type StepPlace } from './revisions.ts'

export function stepsOfCard(evidence: Evidence): StepState[] {
  const { ground } = evidence
  const laters = grouped(
    unstruck(ground.log, 'later').filter((entry) => ground.pinned.answers(entry.body)),
    (entry) => stepName(entry.body),
  )
  return ground.pinned.steps.map((one) => {
    const later = laters.get(stepName({ method: one.method.id, step: one.step.id })) ?? []
    return { ...stepState(evidence, one), later: hashesOf(later) }
  })
}

function stepName({ method, step }: StepPlace): string {
  return `${method}\n${step}`
}

function stepState(evidence: Evidence, one: PinnedStep): Omit<StepState, 'later'> {
  const { ground } = evidence
  const at = { method: one.method.id, step: one.step.id }
  const ticks = stepRegister(ground, 'tick', { ...at, ask: '' })
  const asked = asksAsked(ground, one)
  const open = asked.filter((ask) => !isAnswered(evidence, one, ask)).map((ask) => ask.id)
  return {
    ...at,
    done: doneBy(ticks),
    tick: ticks?.shown?.hash ?? '',
    open,
    not_asked: one.step.asks.filter((ask) => !isAsked(ground, one, ask)).map((ask) => ask.id),
    hold: holdOf(evidence, one, open),
    needs_open: one.step.needs.filter((need) => !isMet(ground, at.method, need)),
  }
}

export function doneOf(ground: Ground, method: string, step: string): StepState['done'] {
  return doneBy(stepRegister(ground, 'tick', { method, step, ask: '' }))
}

function doneBy(ticks: Register | undefined): StepState['done'] {
  const tick = ticks?.answer
  return tick?.kind === 'tick' ? tick.body.value : ''
}

function holdOf(evidence: Evidence, one: PinnedStep, open: readonly string[]): HoldState {
  if (!one.step.hold) return 'none'
  const { ground } = evidence
  if (open.length === 0 && asksAsked(ground, one).every((ask) => isInside(ground, one, ask))) return 'passed'
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

/**
 * `step` needs it done; `step@moment` an unaborted run begun there that has the moment. `method/step` is another
 * method's step, and is open while that method is not pinned.
 */
function isMet(ground: Ground, ownMethod: string, need: string): boolean {
  const [place = '', moment] = need.split('@')
  const [other, otherStep] = place.split('/')
  const method = otherStep === undefined ? ownMethod : other
  const step = otherStep ?? place
  if (method === undefined || !isHere(ground, method, ownMethod)) return false
  if (moment === undefined) return doneOf(ground, method, step) !== ''
  return ground.runs.runs.some(
    ({ state }) =>
      state.method === method &&
      state.step === step &&
      !state.aborted &&
      state.moments.some((each) => each === moment),
  )
}

function isHere({ pinned }: Ground, method: string, ownMethod: string): boolean {
  return method === ownMethod || pinned.methods.some((each) => each.id === method)
}
