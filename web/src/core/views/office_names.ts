/** Where an entry or a finding points, in the method's own words. */
import type { StepRef } from '../entries.ts'
import { type Ask, type MethodDoc, type StageDoc, type StepDoc, stepsOf } from '../method.ts'
import type { CardState } from '../state.ts'
import { entryOf, type JobLog } from './office_log.ts'

export type StepPlace = {
  readonly method: MethodDoc
  readonly stage: StageDoc
  readonly stageNumber: number
  readonly step: StepDoc
  readonly number: number
}

/** Digests that the job pins now, in their order. */
export function pinnedDigests(log: JobLog, state: CardState): readonly string[] {
  return entryOf(log, state.job.pin, 'pin')?.body.methods ?? []
}

export function pinnedMethods(log: JobLog, state: CardState): readonly MethodDoc[] {
  return pinnedDigests(log, state).flatMap((digest) => log.methods[digest] ?? [])
}

export function digestOfPinned(log: JobLog, state: CardState, method: string): string {
  return pinnedDigests(log, state).find((digest) => log.methods[digest]?.id === method) ?? ''
}

/** Stage, step and its number in this method; undefined where the method does not have it. */
export function placeIn(method: MethodDoc | undefined, step: string): StepPlace | undefined {
  if (method === undefined) return undefined
  const stageAt = method.stages.findIndex((stage) => stage.steps.some((one) => one.id === step))
  const stage = method.stages[stageAt]
  const found = stage?.steps.find((one) => one.id === step)
  if (stage === undefined || found === undefined) return undefined
  const number = stepsOf(method).findIndex((one) => one.id === step) + 1
  return { method, stage, stageNumber: stageAt + 1, step: found, number }
}

export function placeOf(log: JobLog, ref: StepRef): StepPlace | undefined {
  return placeIn(log.methods[ref.digest], ref.step)
}

export function pinnedPlace(
  log: JobLog,
  state: CardState,
  method: string,
  step: string,
): StepPlace | undefined {
  return placeIn(log.methods[digestOfPinned(log, state, method)], step)
}

export function askOf(place: StepPlace | undefined, ask: string): Ask | undefined {
  return place?.step.asks.find((one) => one.id === ask)
}

/** Name of an ask's point; the id where the method names none. */
export function pointName(ask: Ask | undefined, point: string): string {
  if (ask?.kind !== 'reading') return point
  return ask.points.find((one) => one.id === point)?.name ?? point
}

/** "Step title, ask name, point name", as far as each is there. */
export function subjectOf(
  place: StepPlace | undefined,
  ask: string,
  point: string,
  fallback: string,
): string {
  const found = askOf(place, ask)
  const words = [place?.step.title ?? fallback, found?.name ?? ask, pointName(found, point)]
  return words.filter((word) => word !== '').join(', ')
}
