/** What came late, out of order, was written down afterwards, or was done before its hold point. */
import type { Entry } from '../entries.ts'
import type { StepDoc } from '../method.ts'
import type { CardState, StepState } from '../state.ts'
import { type JobLog, type LoggedEntry, madeAtMs } from './office_log.ts'
import { pinnedMethods } from './office_names.ts'
import { sawOf } from './office_steps.ts'

/** An entry that took longer than this to reach the office is late. */
export const LATE_AFTER_MS = 10 * 60_000
/** Clocks of two phones agree to within this; less is no order. */
const CLOCKS_DIFFER_MS = 60_000

export function isLate(item: LoggedEntry): boolean {
  return item.received_ms - madeAtMs(item) > LATE_AFTER_MS
}

/** Entries that came after another device's later ones: who had read the page before has to read it again. */
export function outOfOrder(log: JobLog): ReadonlySet<string> {
  const newest = new Map<string, number>()
  const found = new Set<string>()
  for (const item of log.items) {
    const { device, hash } = item.entry
    const at_ms = madeAtMs(item)
    const others = [...newest].filter(([other]) => other !== device).map(([, ms]) => ms)
    if (others.some((other_ms) => other_ms - at_ms > CLOCKS_DIFFER_MS)) found.add(hash)
    newest.set(device, Math.max(newest.get(device) ?? 0, at_ms))
  }
  return found
}

/** Where in its run something was written down afterwards; undefined where the phone's run clock told it. */
export function typedAt(entry: Entry): number | undefined {
  const body = entry.body as { readonly typed_time?: boolean; readonly run_ms?: number }
  return body.typed_time === true ? (body.run_ms ?? 0) : undefined
}

type Hold = {
  readonly method: string
  readonly step: StepDoc
  readonly at: number
  readonly passed_ms: number
}

/** Titles of the hold points that an entry came before, by the clocks; the record took it all the same. */
export function beforeHolds(log: JobLog, state: CardState): ReadonlyMap<string, string> {
  const holds = holdsOf(log, state)
  const found = new Map<string, string>()
  for (const item of log.items) {
    const hold = isWork(item.entry) ? holdBefore(log, state, item, holds) : undefined
    if (hold !== undefined) found.set(item.entry.hash, hold.step.title)
  }
  return found
}

/** A step's own tick and a switch-on say that work was done; all else hangs on them. */
function isWork(entry: Entry): boolean {
  if (entry.kind === 'tick') return entry.body.ask === '' && entry.body.value === 'done'
  return entry.kind === 'heat' && entry.body.act === 'on'
}

function holdBefore(
  log: JobLog,
  state: CardState,
  item: LoggedEntry,
  holds: readonly Hold[],
): Hold | undefined {
  const body = item.entry.body as { readonly method?: string; readonly step?: string }
  const steps = pinnedMethods(log, state)
    .find((one) => one.id === body.method)
    ?.stages.flatMap((stage) => stage.steps)
  const at = steps?.findIndex((one) => one.id === body.step) ?? -1
  const at_ms = madeAtMs(item)
  return holds.find(
    (hold) =>
      hold.method === body.method &&
      hold.at < at &&
      !hold.step.meanwhile.includes(body.step ?? '') &&
      at_ms < hold.passed_ms,
  )
}

function holdsOf(log: JobLog, state: CardState): readonly Hold[] {
  return pinnedMethods(log, state).flatMap((method) =>
    method.stages
      .flatMap((stage) => stage.steps)
      .flatMap((step, at) => {
        const found = state.steps.find((one) => one.method === method.id && one.step === step.id)
        if (!step.hold || found === undefined) return []
        return [{ method: method.id, step, at, passed_ms: passedAt(log, state, found, step) }]
      }),
  )
}

/** When the last of what passes it was made; a hold point that is held has not passed at any time. */
function passedAt(log: JobLog, state: CardState, found: StepState, step: StepDoc): number {
  if (found.hold === 'held') return Number.POSITIVE_INFINITY
  const passing =
    found.hold === 'deviation' ? deviationsOf(log, state, found) : evidenceOf(log, state, found, step)
  const times = passing.flatMap((hash) => {
    const item = log.byHash.get(hash)
    return item === undefined ? [] : [madeAtMs(item)]
  })
  return times.length === 0 ? 0 : Math.max(...times)
}

function evidenceOf(log: JobLog, state: CardState, found: StepState, step: StepDoc): readonly string[] {
  const signs = state.countersigns.filter((one) => one.counts && isOfStep(log, one.hash, found))
  return [...sawOf(state, found.method, step), ...signs.map((one) => one.hash)]
}

/** The first deviation that passes it is enough. */
function deviationsOf(log: JobLog, state: CardState, found: StepState): readonly string[] {
  const passing = state.deviations.filter((hash) => {
    const body = log.byHash.get(hash)?.entry.body as { readonly passes_hold?: boolean } | undefined
    return body?.passes_hold === true && isOfStep(log, hash, found)
  })
  const byTime = passing
    .flatMap((hash) => log.byHash.get(hash) ?? [])
    .sort((a, b) => madeAtMs(a) - madeAtMs(b))
  return byTime.slice(0, 1).map((item) => item.entry.hash)
}

function isOfStep(log: JobLog, hash: string, { method, step }: StepState): boolean {
  const body = log.byHash.get(hash)?.entry.body as { method?: string; step?: string } | undefined
  return body?.method === method && body.step === step
}
