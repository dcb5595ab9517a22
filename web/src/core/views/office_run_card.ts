/** The office's log as the card that the phone's views of a run read: the same chart and forecast, no second rule. */
import type { MethodDoc } from '../method.ts'
import type { CardState, RunState } from '../state.ts'
import { type Card, cardOf, type StepPlace } from './card.ts'
import type { CardPlan } from './card_plans.ts'
import type { JobLog } from './office_log.ts'

/** All pinned steps, as a phone's screens read them. */
export function officeCard(log: JobLog, state: CardState): Card {
  const stored = log.items.map((item, order) => ({ ...item, where: 'office' as const, order }))
  return cardOf(log.job, stored, log.methods, [], () => state)
}

/** Only the steps at which runs were begun stand in it, under the revision that each was begun under. */
export function officeRunCard(log: JobLog, state: CardState, plans?: readonly CardPlan[]): Card {
  const entries = new Map(
    log.items.map((item, order) => [item.entry.hash, { ...item, where: 'office' as const, order }]),
  )
  return {
    job: log.job,
    state,
    entries,
    steps: state.runs.flatMap((run) => placeOfRun(log, state, run) ?? []),
    people: new Map(),
    hotRuns: [],
    ...(plans === undefined ? {} : { plans }),
  }
}

function placeOfRun(log: JobLog, state: CardState, run: RunState): StepPlace | undefined {
  const on = log.byHash.get(run.run)?.entry
  const digest = on !== undefined && 'digest' in on.body ? on.body.digest : ''
  const method = log.methods[digest]
  const found = state.steps.find((one) => one.method === run.method && one.step === run.step)
  const at = method === undefined ? undefined : stepIn(method, run.step)
  if (method === undefined || at === undefined) return undefined
  const unpinned = { method: run.method, step: run.step, done: '', tick: '', hold: 'none' } as const
  const stepState = found ?? { ...unpinned, open: [], not_asked: [], needs_open: [], later: [] }
  return { number: 0, method, digest, ...at, state: stepState }
}

function stepIn(method: MethodDoc, id: string): Pick<StepPlace, 'stage' | 'step'> | undefined {
  for (const [index, stage] of method.stages.entries()) {
    const step = stage.steps.find((one) => one.id === id)
    if (step) return { step, stage: { number: index + 1, title: stage.title, starts: false } }
  }
  return undefined
}
