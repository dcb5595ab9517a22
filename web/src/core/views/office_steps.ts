/** The steps of a job as the office reads them: done, open, held, and what a countersign would have to see. */
import type { Ask, CountersignAsk, StepDoc } from '../method.ts'
import type { CardState, RegisterState, StepState } from '../state.ts'
import { entryOf, type JobLog } from './office_log.ts'
import { digestOfPinned, pinnedDigests, placeIn } from './office_names.ts'

export type SignView = {
  readonly ask: string
  readonly name: string
  readonly demand: string
  readonly atTheCar: boolean
  readonly otherDevice: boolean
  readonly open: boolean
  readonly saw: readonly string[]
}

export type StepView = {
  readonly method: string
  readonly digest: string
  readonly step: string
  readonly number: number
  readonly title: string
  readonly done: StepState['done']
  readonly tick: string
  /** `held` only once its turn has come; before that it is a hold point ahead. */
  readonly hold: StepState['hold'] | 'ahead'
  readonly next: boolean
  readonly openAsks: readonly string[]
  readonly needsOpen: readonly string[]
  readonly signs: readonly SignView[]
}

export type StageView = {
  readonly method: string
  readonly methodTitle: string
  readonly revision: string
  readonly number: number
  readonly title: string
  readonly steps: readonly StepView[]
}

const SEEN_KINDS: ReadonlySet<RegisterState['kind']> = new Set(['text', 'choice', 'reading', 'result'])

function isSeen(register: RegisterState, method: string, step: StepDoc): boolean {
  if (register.shown === '' || register.method !== method || register.step !== step.id) return false
  return SEEN_KINDS.has(register.kind) || (register.kind === 'tick' && register.ask !== '')
}

function decidingOf(state: CardState, asks: readonly Ask[]): readonly string[] {
  const groups = new Set(asks.flatMap((ask) => (ask.kind === 'tally' ? [ask.group] : [])))
  return state.positions
    .filter((position) => groups.has(position.group) && position.deciding !== '')
    .map((position) => position.deciding)
}

/** The hashes that a countersign of this step must name to count. */
export function sawOf(state: CardState, method: string, step: StepDoc): readonly string[] {
  const shown = state.registers.filter((one) => isSeen(one, method, step)).map((one) => one.shown)
  return [...new Set([...shown, ...decidingOf(state, step.asks)])].sort()
}

/** Unstruck deviations that would pass this step's hold point. */
function passingOf(log: JobLog, state: CardState, method: string, step: StepDoc): readonly string[] {
  return state.deviations.filter((hash) => {
    const body = entryOf(log, hash, 'deviation')?.body
    return body?.passes_hold === true && body.method === method && body.step === step.id
  })
}

/** The countersign of a deviation that passes the hold, where the method demands one and none counts yet. */
function deviationSign(log: JobLog, state: CardState, found: StepState, step: StepDoc): readonly SignView[] {
  const saw = passingOf(log, state, found.method, step)
  if (step.hold_countersign === '' || found.hold !== 'held' || saw.length === 0) return []
  const plain = { ask: '', name: '', atTheCar: false, otherDevice: false, open: true }
  return [{ ...plain, demand: step.hold_countersign, saw }]
}

function signView(
  state: CardState,
  method: string,
  step: StepDoc,
  ask: CountersignAsk,
  open: boolean,
): SignView {
  return {
    ask: ask.id,
    name: ask.name,
    demand: ask.of,
    atTheCar: ask.at_the_car,
    otherDevice: ask.other_device,
    open,
    saw: sawOf(state, method, step),
  }
}

function needName(log: JobLog, digest: string, need: string): string {
  const [step = '', moment] = need.split('@')
  const title = placeIn(log.methods[digest], step)?.step.title ?? step
  return moment === undefined ? title : `${title}@${moment}`
}

function stepView(
  log: JobLog,
  state: CardState,
  digest: string,
  number: number,
  found: StepState,
): StepView | undefined {
  const step = placeIn(log.methods[digest], found.step)?.step
  if (step === undefined) return undefined
  const open = new Set(found.open)
  const signs = step.asks.filter((ask): ask is CountersignAsk => ask.kind === 'countersign')
  return {
    method: found.method,
    digest,
    step: found.step,
    number,
    title: step.title,
    done: found.done,
    tick: found.tick,
    hold: found.hold === 'held' && found.needs_open.length > 0 ? 'ahead' : found.hold,
    next: false,
    openAsks: step.asks.filter((ask) => open.has(ask.id)).map((ask) => ask.name),
    needsOpen: found.needs_open.map((need) => needName(log, digest, need)),
    signs: [
      ...signs.map((ask) => signView(state, found.method, step, ask, open.has(ask.id))),
      ...deviationSign(log, state, found, step),
    ],
  }
}

function viewsOf(log: JobLog, state: CardState): readonly StepView[] {
  const numbers = new Map<string, number>()
  const views = state.steps.flatMap((found) => {
    const number = (numbers.get(found.method) ?? 0) + 1
    numbers.set(found.method, number)
    return stepView(log, state, digestOfPinned(log, state, found.method), number, found) ?? []
  })
  const next = views.findIndex((step) => step.done === '')
  return views.map((step, at) => (at === next ? { ...step, next: true } : step))
}

/** Stages of all pinned methods, in order, with their steps. */
export function stageViews(log: JobLog, state: CardState): readonly StageView[] {
  const views = viewsOf(log, state)
  return pinnedDigests(log, state).flatMap((digest) => {
    const method = log.methods[digest]
    if (method === undefined) return []
    return method.stages.map((stage, at) => ({
      method: method.id,
      methodTitle: method.title,
      revision: method.revision,
      number: at + 1,
      title: stage.title,
      steps: views.filter(
        (step) => step.digest === digest && stage.steps.some((one) => one.id === step.step),
      ),
    }))
  })
}

export type Progress = {
  readonly done: number
  readonly total: number
  readonly held: readonly StepView[]
  /** Hold points that have not passed, those ahead among them. */
  readonly unpassed: number
  readonly next?: StepView
}

export function progressOf(stages: readonly StageView[]): Progress {
  const steps = stages.flatMap((stage) => stage.steps)
  const next = steps.find((step) => step.next)
  return {
    done: steps.filter((step) => step.done !== '').length,
    total: steps.length,
    held: steps.filter((step) => step.hold === 'held'),
    unpassed: steps.filter((step) => step.hold === 'held' || step.hold === 'ahead').length,
    ...(next ? { next } : {}),
  }
}
