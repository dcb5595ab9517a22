/** Whether an ask is answered, and whether the answer is inside its limits. */
import type { Entry, LadderState } from '../entries.ts'
import type { Ask, ComputeAsk, ReadingAsk, TallyAsk } from '../method.ts'
import type { CountersignState, LotState, SlotState } from '../state.ts'
import { type Ground, stepRegister } from './ground.ts'
import { unstruck } from './log.ts'
import type { Register, RegisterKind } from './registers.ts'
import type { PinnedStep, StepPlace } from './revisions.ts'
import { inputsAt, openLosts, rungOf, topRivet } from './tally.ts'

/** What answers are looked up in; asks by their names. */
export type Evidence = {
  readonly ground: Ground
  /** Countersigns that count, and the asks that they count for. */
  readonly counting: ReadonlySet<string>
  readonly countersigned: ReadonlySet<string>
  /** Photo and lot asks that have a photo or lot. */
  readonly supplied: ReadonlySet<string>
  /** Asks at which a run was begun that reached cold. */
  readonly heated: ReadonlySet<string>
}

export function askName(at: StepPlace & { readonly ask: string }): string {
  return `${at.method}\n${at.step}\n${at.ask}`
}

export function evidenceOf(
  ground: Ground,
  slots: readonly SlotState[],
  lots: readonly LotState[],
  countersigns: readonly CountersignState[],
): Evidence {
  const counting = new Set(countersigns.filter((state) => state.counts).map((state) => state.hash))
  const signs = unstruck(ground.log, 'countersign').filter((entry) => counting.has(entry.hash))
  const photos = slots.filter((slot) => slot.photos.length > 0).map((slot) => ({ ...slot, ask: slot.slot }))
  const runs = ground.runs.runs.map((run) => run.state)
  return {
    ground,
    counting,
    countersigned: new Set(signs.map((entry) => askName(entry.body))),
    supplied: new Set([...photos, ...lots.filter((lot) => lot.answers.length > 0)].map(askName)),
    heated: new Set(runs.filter((run) => !run.aborted && run.moments.includes('cold')).map(askName)),
  }
}

/** The points of a reading: one without a name where the ask has none. */
export function pointsOf(ask: ReadingAsk): readonly string[] {
  return ask.points.length === 0 ? [''] : ask.points.map((point) => point.id)
}

/** The registers whose values answer an ask; none for asks that are answered by sets. */
export function registersOfAsk(ground: Ground, one: PinnedStep, ask: Ask): (Register | undefined)[] {
  const kind = REGISTER_OF[ask.kind]
  if (kind === undefined) return []
  const points = ask.kind === 'reading' ? pointsOf(ask) : ['']
  const at = { method: one.method.id, step: one.step.id, ask: ask.id }
  return points.map((point) => stepRegister(ground, kind, { ...at, point }))
}

const REGISTER_OF: { readonly [K in Ask['kind']]?: RegisterKind } = {
  tick: 'tick',
  text: 'text',
  choice: 'choice',
  reading: 'reading',
  compute: 'result',
}

export function isAnswered(evidence: Evidence, one: PinnedStep, ask: Ask): boolean {
  const at = { method: one.method.id, step: one.step.id, ask: ask.id }
  const { ground } = evidence
  switch (ask.kind) {
    case 'tick':
    case 'text':
    case 'choice':
    case 'reading':
      return registersOfAsk(ground, one, ask).every((register) => register?.answer !== undefined)
    case 'compute':
      return registersOfAsk(ground, one, ask).every(
        (register) => register?.answer !== undefined && !isStale(ground, one, ask, register.answer),
      )
    case 'photo':
    case 'lot':
      return evidence.supplied.has(askName(at))
    case 'tally':
      return isCounted(ground, one, ask)
    case 'heat_run':
      return evidence.heated.has(askName(at))
    case 'countersign':
      return evidence.countersigned.has(askName(at))
    default:
      ask satisfies never
      return false
  }
}

/** A group that the method does not have, or has empty, is never counted. */
function isCounted(ground: Ground, one: PinnedStep, ask: TallyAsk): boolean {
  const positions = positionsOf(one, ask.group)
  return positions.length > 0 && positions.every((position) => hasReached(ground, position, ask.to))
}

export function positionsOf(one: PinnedStep, group: string): readonly string[] {
  return one.method.groups.find((each) => each.id === group)?.positions ?? []
}

/**
 * Taking out is asked of any rivet that was ever there; setting of the newest one, which is of generation 1 or
 * more and not yet on its way out again.
 */
function hasReached(ground: Ground, position: string, to: LadderState): boolean {
  const spot = ground.tally.spots.get(position)
  if (spot === undefined || openLosts(spot).length > 0) return false
  const wanted = rungOf(to)
  if (wanted >= IN_PLACE) {
    return spot.rivets.some(({ deciding }) => deciding !== undefined && rungOf(deciding.body.state) >= wanted)
  }
  const top = topRivet(spot)
  if (top?.deciding === undefined || top.generation < 1) return false
  const rung = rungOf(top.deciding.body.state)
  return rung >= wanted && rung <= IN_PLACE
}

const IN_PLACE = rungOf('in_place')

/** A reconciliation is stale when the tally has moved on since; other computations never are. */
export function isStale(ground: Ground, one: PinnedStep, ask: ComputeAsk, result: Entry): boolean {
  if (ask.computation !== 'tally_reconciliation' || result.kind !== 'result') return false
  const positions = (ask.groups ?? []).flatMap((group) => positionsOf(one, group))
  return [...result.body.inputs].sort().join('\n') !== inputsAt(ground.tally.spots, positions).join('\n')
}

/** Outside its limits, or not in the unit and decimals that they are written in. */
export function isOutside(ask: ReadingAsk, reading: Entry): boolean {
  if (reading.kind !== 'reading' || 'run' in reading.body) return false
  const { value, unit, decimals } = reading.body
  if (unit !== ask.unit || decimals !== ask.decimals) return true
  return (ask.min !== undefined && value < ask.min) || (ask.max !== undefined && value > ask.max)
}

export function isStop(ask: Ask, choice: Entry): boolean {
  if (ask.kind !== 'choice' || choice.kind !== 'choice') return false
  return ask.options.some((option) => option.id === choice.body.option && option.stop)
}

/** Whether an answered ask lets a hold point pass. */
export function isInside(ground: Ground, one: PinnedStep, ask: Ask): boolean {
  const answers = registersOfAsk(ground, one, ask).flatMap((register) => register?.answer ?? [])
  return !answers.some((answer) => isBad(ask, answer))
}

function isBad(ask: Ask, answer: Entry): boolean {
  if (ask.kind === 'reading') return isOutside(ask, answer)
  if (answer.kind === 'result') return answer.body.verdict === 'outside'
  return isStop(ask, answer)
}
