/** What a run's phase is, and what it wants next and when: counted by the method's own times, without a plan. */
import type { LaterAct } from '../entries.ts'
import type { PadStep } from '../live/response_set.ts'
import type { HeatRunAsk, HeatSettings } from '../method.ts'
import type { RunState } from '../state.ts'
import { nextStep } from './planned_release.ts'
import type { ActRow } from './run_rows.ts'
import type { Moment, SensorView } from './run_sensors.ts'

export type HeatPhase = 'ramp' | 'soak' | 'workable' | 'release' | 'cooling' | 'over' | 'aborted'

/** What the run wants next; `due_ms` is on the run clock, absent where no time is set for it. */
export type NextOfRun = {
  readonly act: 'read' | LaterAct
  readonly pad: string
  readonly due_ms: number | undefined
  /** What the countdown or the reading leads to. */
  readonly leads: 'soak' | 'soaked' | 'lift' | 'cold' | 'contact' | ''
  /** The share of its power that the plan leaves a pad. */
  readonly permille?: number
}

export type RunFacts = {
  readonly run: RunState
  readonly ask: HeatRunAsk
  readonly acts: readonly ActRow[]
  readonly moments: readonly Moment[]
  readonly sensors: readonly SensorView[]
  /** Of the pinned plan: its release, and when its forecast says that the soak begins; undefined for never. */
  readonly planned?: { readonly steps: readonly PadStep[]; readonly soak_ms: number | undefined }
}

export function phaseOf({ run, moments, ask }: RunFacts): HeatPhase {
  const has = (moment: RunState['moments'][number]) => run.moments.includes(moment)
  if (has('cold')) return 'over'
  if (run.aborted) return 'aborted'
  if (run.off) return 'cooling'
  if (run.lifted.length + run.turned_down.length > 0) return 'release'
  if (has('workable') || has('soaked')) return 'workable'
  return moments.some((one) => one.lagging >= ask.settings.lagging_min) ? 'soak' : 'ramp'
}

const BEGINS: Partial<Record<HeatPhase, readonly LaterAct[]>> = {
  workable: ['soaked', 'workable'],
  release: ['turn_down', 'lift'],
  cooling: ['off'],
  over: ['cold'],
  aborted: ['abort'],
}

/** Run clock at which the phase began. */
export function phaseStart({ run, acts, moments, ask }: RunFacts, phase: HeatPhase): number {
  if (phase === 'soak' && run.soak_ms > 0)
    return moments.find((one) => one.lagging >= ask.settings.lagging_min)?.run_ms ?? 0
  if (phase === 'soak') return moments.at(-1)?.run_ms ?? 0
  return acts.find(({ act }) => BEGINS[phase]?.includes(act))?.run_ms ?? 0
}

const NONE = { pad: '', due_ms: undefined, leads: '' } as const

/** `loose`: a pad that does not touch; waiting does not help, so pressing it on comes first. */
export function nextOf(facts: RunFacts, phase: HeatPhase, loose: string | undefined): NextOfRun {
  const { run, ask, moments } = facts
  if (loose !== undefined) return { act: 'remark', pad: loose, due_ms: undefined, leads: 'contact' }
  switch (phase) {
    case 'ramp':
      return rampNext(facts)
    case 'soak':
      return soakNext(run, ask.settings, moments.at(-1))
    case 'workable':
      if (ask.purpose === 'removal' && !run.moments.includes('workable')) return { ...NONE, act: 'workable' }
      return releaseNext(facts)
    case 'release':
      return releaseNext(facts)
    case 'cooling':
      return coldNext(facts)
    case 'aborted':
      return { ...NONE, act: 'cold' }
    case 'over':
      return { ...NONE, act: 'remark' }
  }
}

/**
 * When the forecast says that the soak begins, or the method's own time; after that, as often as the method wants
 * readings. A plan whose forecast says never promises no soak.
 */
function rampNext({ ask: { settings }, moments, planned }: RunFacts): NextOfRun {
  const moment = moments.at(-1)
  const read_ms = moment?.run_ms ?? 0
  const again_ms = read_ms + settings.gap_max_s * 1000
  const read = { act: 'read', pad: '' } as const
  if (planned !== undefined && planned.soak_ms === undefined) return { ...read, due_ms: again_ms, leads: '' }
  if (planned?.soak_ms !== undefined && planned.soak_ms > read_ms)
    return { ...read, due_ms: planned.soak_ms, leads: 'soak' }
  const due_ms = Math.max(settings.ramp_s * 1000, moment === undefined ? 0 : again_ms)
  return { ...read, due_ms, leads: 'soak' }
}

/**
 * Counted to the last readings; from there it runs on as long as the lagging sensor held. It stops when the
 * sensors are not read again within the gap, so readings are next where they fall due before its end.
 */
function soakNext(run: RunState, settings: HeatSettings, moment: Moment | undefined): NextOfRun {
  const want_ms = settings.soak_s * 1000
  if (run.soak_ms >= want_ms)
    return { act: 'soaked', pad: '', due_ms: run.soak_counts_to_ms, leads: 'soaked' }
  const soaking = moment !== undefined && moment.lagging >= settings.lagging_min
  if (!soaking) return { act: 'read', pad: '', due_ms: undefined, leads: 'soaked' }
  const end_ms = moment.run_ms + want_ms - run.soak_ms
  const again_ms = moment.run_ms + settings.gap_max_s * 1000
  if (again_ms < end_ms) return { act: 'read', pad: '', due_ms: again_ms, leads: '' }
  return { act: 'read', pad: '', due_ms: end_ms, leads: 'soaked' }
}

/**
 * By the plan where there is one, step by step. Without one, a method that says when pads may be lifted turns them
 * all down first; another lifts them one by one.
 */
function releaseNext(facts: RunFacts): NextOfRun {
  const { run, ask } = facts
  const { release, lift_below } = ask.settings
  const isCool = lift_below !== undefined && isBelow(facts, lift_below)
  const step = isCool ? undefined : nextStep(facts.planned?.steps ?? [], facts)
  if (step !== undefined)
    return { ...NONE, act: 'turn_down', pad: step.pad, due_ms: step.due_ms, permille: step.permille }
  const pad = release.find((one) => !run.lifted.includes(one))
  if (pad === undefined) return { ...NONE, act: 'off' }
  if (lift_below === undefined) return { ...NONE, act: 'lift', pad }
  const down = release.find((one) => !run.lifted.includes(one) && !run.turned_down.includes(one))
  if (down !== undefined) return { ...NONE, act: 'turn_down', pad: down, due_ms: stageDue(facts) }
  return isCool ? { ...NONE, act: 'lift', pad } : readAgain(facts, 'lift')
}

/**
 * Without a plan a stage lasts as long as the method's own window takes to cool through at its cooling limit;
 * the first pad has no time of its own: those who wedge say when its stretch is parted.
 */
export function stageMs({ cooling_max, leading_max, lagging_min }: HeatSettings): number | undefined {
  if (cooling_max === undefined || cooling_max <= 0) return undefined
  return Math.round(((leading_max - lagging_min) / cooling_max) * 60_000)
}

function stageDue({ acts, ask }: RunFacts): number | undefined {
  const last = acts.filter(({ act }) => act === 'turn_down' || act === 'lift').at(-1)
  const stage_ms = stageMs(ask.settings)
  return last === undefined || stage_ms === undefined ? undefined : last.run_ms + stage_ms
}

function coldNext(facts: RunFacts): NextOfRun {
  const { lift_below, cold_below } = facts.ask.settings
  if (lift_below === undefined || isBelow(facts, cold_below)) return { ...NONE, act: 'cold' }
  return readAgain(facts, 'cold')
}

/** By the metal, whose sensor says when hands may come near; by the bond where no sensor is on metal. */
export function isBelow({ sensors }: Pick<RunFacts, 'sensors'>, limit: number): boolean {
  const metal = sensors.filter((one) => one.of === 'metal')
  const read = metal.length > 0 ? metal : sensors.filter((one) => one.of === 'bond')
  return read.length > 0 && read.every((one) => one.value !== undefined && one.value < limit)
}

function readAgain({ sensors, acts, ask }: RunFacts, leads: 'lift' | 'cold'): NextOfRun {
  const last_ms = Math.max(0, ...sensors.map((one) => one.run_ms ?? 0), ...acts.map((one) => one.run_ms))
  return { act: 'read', pad: '', due_ms: last_ms + ask.settings.gap_max_s * 1000, leads }
}
