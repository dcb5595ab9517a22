/**
 * Stale results: the records have moved on from what the computation rested on.
 *
 * A reconciliation rests on exactly the deciding entries and marks of the rivets that it counts. A result whose ask
 * names answers is stale when an entry that it used is struck, sent back, set aside or no longer what is shown, and
 * when an answer that the ask names is shown and was not used. What a run, a lot or a photo adds later makes
 * nothing stale; an entry that has not arrived is no reason either.
 */
import type { Entry } from '../entries.ts'
import { type AnswerRef, type ComputeAsk, type Ladder, ladderTo } from '../method.ts'
import { isAsked } from './asked.ts'
import { type Ground, stepRegister } from './ground.ts'
import { isStruck } from './log.ts'
import { keyOf, type RegisterKind, registerName } from './registers.ts'
import { type PinnedStep, positionsOf } from './revisions.ts'
import { inputsAt } from './tally.ts'

type ResultEntry = Extract<Entry, { kind: 'result' }>

export function isStale(ground: Ground, one: PinnedStep, ask: ComputeAsk, result: Entry): boolean {
  if (result.kind !== 'result') return false
  if (ask.computation === 'tally_reconciliation' && tallyMovedOn(ground, one, ask, result)) return true
  if ((ask.inputs ?? []).length === 0) return false
  const used = new Set(result.body.inputs)
  return (
    [...used].some((hash) => isGone(ground, hash)) ||
    answersNamed(ground, ask).some((hash) => !used.has(hash))
  )
}

/** On which half of the ladder the tallies that the ask names are counted; undefined where it names none. */
export function ladderOf({ pinned }: Pick<Ground, 'pinned'>, ask: ComputeAsk): Ladder | undefined {
  for (const ref of refsOf(ask)) {
    const named = pinned.find(ref)?.step.asks.find((each) => each.id === ref.ask)
    if (named?.kind === 'tally') return ladderTo(named.to)
  }
  return undefined
}

/** What it used beside the tally is known for what it is, and left out. */
function tallyMovedOn(ground: Ground, one: PinnedStep, ask: ComputeAsk, { body }: ResultEntry): boolean {
  const used = body.inputs.filter((hash) => {
    const entry = ground.log.everything.get(hash)
    return entry === undefined || entry.kind === 'tally'
  })
  const positions = (ask.groups ?? []).flatMap((group) => positionsOf(one, group))
  const rests = inputsAt(ground.tally.spots, positions, ladderOf(ground, ask))
  return [...used].sort().join('\n') !== rests.join('\n')
}

function isGone({ log, registers }: Ground, used: string): boolean {
  if (!log.everything.has(used)) return false
  const entry = log.live.get(used)
  if (entry === undefined || isStruck(log, used) || log.sentBack.has(used)) return true
  const key = keyOf(entry)
  return key !== undefined && registers.get(registerName(key))?.answer?.hash !== used
}

const REGISTER_OF: { readonly [kind: string]: RegisterKind } = {
  tick: 'tick',
  text: 'text',
  choice: 'choice',
  reading: 'reading',
  compute: 'result',
}

/** The shown answers that the ask names, of asks that are asked. */
function answersNamed(ground: Ground, ask: ComputeAsk): readonly string[] {
  return refsOf(ask).flatMap((ref) => {
    const one = ground.pinned.find(ref)
    const named = one?.step.asks.find((each) => each.id === ref.ask)
    const kind = named && REGISTER_OF[named.kind]
    if (one === undefined || named === undefined || kind === undefined || !isAsked(ground, one, named))
      return []
    const all = named.kind === 'reading' && named.points.length > 0 ? named.points.map(({ id }) => id) : ['']
    const points = all.filter((point) => !ref.point || point === ref.point)
    return points.flatMap((point) => stepRegister(ground, kind, { ...ref, point })?.answer?.hash ?? [])
  })
}

function refsOf(ask: ComputeAsk): readonly AnswerRef[] {
  return (ask.inputs ?? []).flatMap((one) => ('from' in one ? one.from : []))
}
