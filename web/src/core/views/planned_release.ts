/** The plan's release as acts of a run: which are done, and when each of the others is due. */
import type { PadStep } from '../live/response_set.ts'
import type { RunState } from '../state.ts'
import type { ActRow } from './run_rows.ts'

/** `due_ms` on the run clock; the first has none: those who wedge say when its stretch is parted. */
export type PlannedStep = PadStep & {
  readonly number: number
  readonly done_ms: number | undefined
  readonly due_ms: number | undefined
}

type Facts = { readonly run: Pick<RunState, 'lifted'>; readonly acts: readonly ActRow[] }

/**
 * The n-th time that a pad was turned down is its n-th step. What was done late moves all that follows by as much:
 * the plan's waits are what keeps the cooling within its limit.
 */
export function plannedSteps(steps: readonly PadStep[], { run, acts }: Facts): readonly PlannedStep[] {
  const lasting = steps.filter(({ pad }) => !run.lifted.includes(pad) || timesDown(acts, pad).length > 0)
  const timed = lasting.map((step, i) => {
    const before = lasting.slice(0, i).filter(({ pad }) => pad === step.pad).length
    return { ...step, number: i + 1, done_ms: timesDown(acts, step.pad)[before] }
  })
  const late_ms = lateMs(timed)
  return timed.map((step) => ({
    ...step,
    due_ms: step.done_ms !== undefined || late_ms === undefined ? undefined : step.at_s * 1000 + late_ms,
  }))
}

/** By how much the last step that is done was late. */
function lateMs(steps: readonly Pick<PlannedStep, 'at_s' | 'done_ms'>[]): number | undefined {
  const last = steps.filter(({ done_ms }) => done_ms !== undefined).at(-1)
  return last?.done_ms === undefined ? undefined : last.done_ms - last.at_s * 1000
}

function timesDown(acts: readonly ActRow[], pad: string): readonly number[] {
  return acts.filter((one) => one.act === 'turn_down' && one.pad === pad).map(({ run_ms }) => run_ms)
}

/** The next step of a pad that still lies on. */
export function nextStep(steps: readonly PadStep[], facts: Facts): PlannedStep | undefined {
  return plannedSteps(steps, facts).find(
    ({ pad, done_ms }) => done_ms === undefined && !facts.run.lifted.includes(pad),
  )
}

/** By how much the run is behind its plan, from the release's last step on; undefined before the first. */
export function behindPlanMs(steps: readonly PadStep[], facts: Facts): number | undefined {
  return lateMs(plannedSteps(steps, facts))
}
