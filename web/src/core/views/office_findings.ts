/** Findings and deviations with what they point at and how the office stands to them. */
import type { CardState, Finding } from '../state.ts'
import { entriesOf, entryOf, type JobLog, madeAtMs } from './office_log.ts'
import { pinnedMethods, placeIn, placeOf, subjectOf } from './office_names.ts'
import { subjectOfHash } from './office_what.ts'

export type Acceptance = {
  readonly by: string
  readonly at_ms: number
  readonly reason: string
  readonly hash: string
}

/** What `accept` names: all three must stay equal for it to hold. */
export type AcceptKey = {
  readonly code: string
  readonly at: readonly string[]
  readonly hashes: readonly string[]
}

export type FindingView = AcceptKey & { readonly where: string; readonly accepted?: Acceptance }

export type DeviationView = AcceptKey & {
  readonly hash: string
  readonly text: string
  readonly where: string
  readonly about: readonly string[]
  readonly passesHold: boolean
  readonly by: string
  readonly at_ms: number
  readonly accepted?: Acceptance
}

function acceptance(log: JobLog, hash: string): Acceptance | undefined {
  const entry = entryOf(log, hash, 'accept')
  const item = log.byHash.get(hash)
  if (entry === undefined || item === undefined) return undefined
  return { hash, by: entry.by, at_ms: madeAtMs(item), reason: entry.body.reason }
}

/** `at` is [method, step, ask, point], or a position, a run, a device: the first that the log knows. */
function whereOf(log: JobLog, state: CardState, finding: Finding): string {
  const [first = '', step, ask = '', point = ''] = finding.at
  const method = pinnedMethods(log, state).find((one) => one.id === first)
  const place = step === undefined ? undefined : placeIn(method, step)
  if (place !== undefined) return subjectOf(place, ask, point, '')
  if (log.byHash.has(first)) return subjectOfHash(log, first)
  if (state.positions.some((position) => position.position === first)) return first
  const conditions = pinnedMethods(log, state).flatMap((one) => one.conditions)
  const condition = conditions.find((one) => one.id === first)
  if (condition !== undefined && finding.at.length === 1) return condition.name
  return subjectOfHash(log, finding.hashes[0])
}

export function findingViews(log: JobLog, state: CardState): readonly FindingView[] {
  const views = state.findings.map((finding) => {
    const accepted = finding.accepted === '' ? undefined : acceptance(log, finding.accepted)
    const { code, at, hashes } = finding
    return { code, at, hashes, where: whereOf(log, state, finding), ...(accepted ? { accepted } : {}) }
  })
  return [...views.filter((one) => !one.accepted), ...views.filter((one) => one.accepted)]
}

/** Name under which a deviation is accepted; it is no finding, so the fold leaves it alone. */
export const DEVIATION = 'deviation'

function acceptedDeviations(log: JobLog, state: CardState): ReadonlyMap<string, string> {
  const gone = new Set([...state.struck.map((one) => one.target), ...state.aside])
  const accepts = entriesOf(log, 'accept').filter((one) => one.body.code === DEVIATION && !gone.has(one.hash))
  return new Map(accepts.flatMap((one) => one.body.hashes.map((hash) => [hash, one.hash] as const)))
}

function deviationView(
  log: JobLog,
  hash: string,
  by: ReadonlyMap<string, string>,
): DeviationView | undefined {
  const entry = entryOf(log, hash, 'deviation')
  const item = log.byHash.get(hash)
  if (entry === undefined || item === undefined) return undefined
  const { text, about, passes_hold, method, step } = entry.body
  const accepted = acceptance(log, by.get(hash) ?? '')
  return {
    hash,
    code: DEVIATION,
    at: [method, step].filter((id) => id !== ''),
    hashes: [hash],
    text,
    where: placeOf(log, entry.body)?.step.title ?? step,
    about,
    passesHold: passes_hold,
    by: entry.by,
    at_ms: madeAtMs(item),
    ...(accepted ? { accepted } : {}),
  }
}

export function deviationViews(log: JobLog, state: CardState): readonly DeviationView[] {
  const by = acceptedDeviations(log, state)
  return state.deviations.flatMap((hash) => deviationView(log, hash, by) ?? [])
}
