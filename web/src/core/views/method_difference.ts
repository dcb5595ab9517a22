/**
 * What differs between two revisions of a method, by step and ask: added, removed, changed with old and new.
 * Every member of every step is compared, so that nothing that opens a step again is left unsaid.
 */
import { dumps, type Json } from '../canonical.ts'
import { type Ask, type MethodDoc, type StepDoc, stepText } from '../method.ts'
import { type Change, changesOf, type Members } from './member_changes.ts'

export type AskDifference = {
  readonly ask: string
  readonly name: string
  readonly kind: Ask['kind']
  readonly how: 'added' | 'removed' | 'changed'
  readonly changes: readonly Change[]
}

export type StepDifference = {
  readonly step: string
  readonly title: string
  readonly stage: string
  readonly how: 'added' | 'removed' | 'changed'
  readonly changes: readonly Change[]
  readonly asks: readonly AskDifference[]
  /** What was recorded under the other revision does not answer it: its own text is not the same, to the byte. */
  readonly asksAnew: boolean
}

export type MethodDifference = {
  readonly from: Pick<MethodDoc, 'id' | 'title' | 'revision'>
  readonly to: Pick<MethodDoc, 'id' | 'title' | 'revision'>
  /** Of the method as a whole: zones, groups, drawings, the order of its steps. */
  readonly changes: readonly Change[]
  readonly steps: readonly StepDifference[]
}

type Placed = { readonly step: StepDoc; readonly stage: string }

const placed = (method: MethodDoc): ReadonlyMap<string, Placed> =>
  new Map(
    method.stages.flatMap((stage) => stage.steps.map((step) => [step.id, { step, stage: stage.title }])),
  )

const textOf = (value: unknown): string => dumps(value as Json)

export function methodDifference(from: MethodDoc, to: MethodDoc): MethodDifference {
  const before = placed(from)
  const after = placed(to)
  const added = [...after].filter(([id]) => !before.has(id)).map(([, one]) => wholeStep(one, 'added'))
  const removed = [...before].filter(([id]) => !after.has(id)).map(([, one]) => wholeStep(one, 'removed'))
  const changed = [...after].flatMap(([id, one]) => {
    const old = before.get(id)
    return old === undefined ? [] : stepDifference(old, one)
  })
  return {
    from: named(from),
    to: named(to),
    changes: [...changesOf(wholeOf(from), wholeOf(to), {}), ...orderChange(before, after)],
    steps: [...removed, ...changed, ...added],
  }
}

const named = ({ id, title, revision }: MethodDoc): MethodDifference['from'] => ({ id, title, revision })

export function isSame(difference: MethodDifference): boolean {
  return difference.changes.length === 0 && difference.steps.length === 0
}

function wholeStep({ step, stage }: Placed, how: 'added' | 'removed'): StepDifference {
  return {
    step: step.id,
    title: step.title,
    stage,
    how,
    changes: [],
    asks: step.asks.map(askOf(how)),
    asksAnew: true,
  }
}

const askOf =
  (how: 'added' | 'removed') =>
  ({ id, name, kind }: Ask): AskDifference => ({ ask: id, name, kind, how, changes: [] })

function stepDifference(before: Placed, after: Placed): readonly StepDifference[] {
  const asks = askDifferences(before.step.asks, after.step.asks)
  const changes = changesOf(stepMembers(before), stepMembers(after), {})
  if (asks.length === 0 && changes.length === 0) return []
  const { id, title } = after.step
  const asksAnew = stepText(before.step) !== stepText(after.step)
  return [{ step: id, title, stage: after.stage, how: 'changed', changes, asks, asksAnew }]
}

/** The stage is no part of the step's own text: a step that only moved answers as before. */
function stepMembers({ step, stage }: Placed): Members {
  const { id: _id, asks: _asks, ...rest } = step
  return { ...(rest as unknown as Members), stage }
}

const isSameAsk = (a: Ask, b: Ask): boolean => a.id === b.id && a.kind === b.kind

function askDifferences(before: readonly Ask[], after: readonly Ask[]): readonly AskDifference[] {
  const added = after.filter((ask) => !before.some((old) => isSameAsk(old, ask))).map(askOf('added'))
  const removed = before.filter((ask) => !after.some((one) => isSameAsk(ask, one))).map(askOf('removed'))
  const changed = after.flatMap((ask) => {
    const old = before.find((one) => isSameAsk(one, ask))
    return old === undefined ? [] : askDifference(old, ask)
  })
  const order = changed.length + added.length + removed.length === 0 ? orderOfAsks(before, after) : []
  return [...removed, ...changed, ...added, ...order]
}

function askDifference(before: Ask, after: Ask): readonly AskDifference[] {
  const changes = changesOf(membersOf(before), membersOf(after), scaleOf(after))
  const { id, name, kind } = after
  return changes.length === 0 ? [] : [{ ask: id, name, kind, how: 'changed', changes }]
}

/** A heat run's settings are compared one by one, as if they were the ask's own. */
function membersOf(ask: Ask): Members {
  const { id: _id, kind: _kind, ...rest } = ask
  const { settings, ...plain } = rest as unknown as Members
  return { ...plain, ...((settings ?? {}) as Members) }
}

function scaleOf(ask: Ask): { unit?: string; decimals?: number } {
  if (ask.kind === 'reading') return { unit: ask.unit, decimals: ask.decimals }
  if (ask.kind !== 'heat_run') return {}
  return { unit: ask.settings.sensors_unit, decimals: ask.settings.decimals }
}

/** The same asks in another order still make another step. */
function orderOfAsks(before: readonly Ask[], after: readonly Ask[]): readonly AskDifference[] {
  const [first] = after
  const same = textOf(before.map((ask) => ask.id)) === textOf(after.map((ask) => ask.id))
  if (same || first === undefined) return []
  const change: Change = {
    member: 'order',
    as: 'list',
    before: before.map((ask) => ask.name),
    after: after.map((ask) => ask.name),
  }
  return [{ ask: first.id, name: first.name, kind: first.kind, how: 'changed', changes: [change] }]
}

const NOT_COMPARED: ReadonlySet<string> = new Set(['form', 'id', 'revision', 'stages', 'invented'])

function wholeOf(method: MethodDoc): Members {
  return Object.fromEntries(
    Object.entries(method as unknown as Members).filter(([name]) => !NOT_COMPARED.has(name)),
  )
}

function orderChange(
  before: ReadonlyMap<string, Placed>,
  after: ReadonlyMap<string, Placed>,
): readonly Change[] {
  const was = [...before.keys()].filter((id) => after.has(id))
  const is = [...after.keys()].filter((id) => before.has(id))
  if (textOf(was) === textOf(is)) return []
  const titles = (ids: readonly string[]): readonly string[] =>
    ids.map((id) => after.get(id)?.step.title ?? id)
  return [{ member: 'order', as: 'list', before: titles(was), after: titles(is) }]
}
