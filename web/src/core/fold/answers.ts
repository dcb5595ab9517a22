/** Whether an ask is answered, and whether the answer is inside its limits. */
import type { Entry, LadderState } from '../entries.ts'
import {
  type AnswerRef,
  type Ask,
  type HeatRunAsk,
  type Moment,
  partsOf,
  type ReadingAsk,
  type RunPart,
  type TallyAsk,
} from '../method.ts'
import type { CountersignState, LotState, RunState, SlotState } from '../state.ts'
import type { Ground } from './ground.ts'
import { unstruck } from './log.ts'
import { type Register, type RegisterKind, registerName } from './registers.ts'
import { askName, type PinnedStep, positionsOf } from './revisions.ts'
import { isStale } from './stale.ts'
import { openLosts, rungOf, topRivet } from './tally.ts'
import { valueFault } from './values.ts'

/** What answers are looked up in; asks by their names. */
export type Evidence = {
  readonly ground: Ground
  /** Countersigns that count, and the asks that they count for. */
  readonly counting: ReadonlySet<string>
  readonly countersigned: ReadonlySet<string>
  /** Photo asks that have a photo, and lot asks that have a lot in order or excused by a deviation. */
  readonly supplied: ReadonlySet<string>
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
  const excused = excusedIn(ground)
  const isUsable = ({ answers, marked }: LotState) =>
    answers.some((hash) => !marked.includes(hash) || excused.has(hash))
  return {
    ground,
    counting,
    countersigned: new Set(signs.map((entry) => askName(entry.body))),
    supplied: new Set([...photos, ...lots.filter(isUsable)].map(askName)),
  }
}

/** What unstruck deviations name. */
function excusedIn({ log }: Ground): ReadonlySet<string> {
  return new Set(unstruck(log, 'deviation').flatMap((entry) => entry.body.about))
}

/** The points of a reading: one without a name where the ask has none. */
export function pointsOf(ask: ReadingAsk): readonly string[] {
  return ask.points.length === 0 ? [''] : ask.points.map((point) => point.id)
}

/** The registers whose values answer an ask; none for asks that are answered by sets. */
export function registersOfAsk(ground: Ground, one: PinnedStep, ask: Ask): (Register | undefined)[] {
  const kind = REGISTER_OF[ask.kind]
  if (kind === undefined) return []
  return namesOf(one, ask, kind).map((name) => ground.registers.get(name))
}

/** A pinned step never changes: what its registers are called is worked out once, however often it is looked at. */
const NAMES = new WeakMap<PinnedStep, Map<Ask, readonly string[]>>()

function namesOf(one: PinnedStep, ask: Ask, kind: RegisterKind): readonly string[] {
  const ofStep = NAMES.get(one) ?? new Map<Ask, readonly string[]>()
  const known = ofStep.get(ask)
  if (known !== undefined) return known
  const points = ask.kind === 'reading' ? pointsOf(ask) : ['']
  const at = { kind, method: one.method.id, step: one.step.id, ask: ask.id }
  const names = points.map((point) => registerName({ ...at, point }))
  NAMES.set(one, ofStep.set(ask, names))
  return names
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
      return (
        ('where_needed' in ask && ask.where_needed === true) ||
        registersOfAsk(ground, one, ask).every((register) => register?.answer !== undefined)
      )
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
      return ground.runs.runs.some(({ state }) => isThrough(state, ask.continues ?? at, ask))
    case 'countersign':
      return evidence.countersigned.has(askName(at))
    default:
      ask satisfies never
      return false
  }
}

/** The moments at which each part of a run is over. */
const END_OF: { readonly [P in RunPart]: readonly Moment[] } = {
  ramp: ['on'],
  soak: ['soaked'],
  release: ['lifted', 'off'],
  cool_down: ['cold'],
}
const LAST_FIRST: readonly RunPart[] = ['cool_down', 'release', 'soak', 'ramp']

/** Whether an unaborted run that was begun there has come to the end of the ask's last part. */
function isThrough(run: RunState, begun: AnswerRef, ask: HeatRunAsk): boolean {
  if (run.aborted || askName(run) !== askName(begun)) return false
  const last = LAST_FIRST.find((part) => partsOf(ask).includes(part)) ?? 'cool_down'
  return END_OF[last].some((moment) => run.moments.includes(moment))
}

/** A group that the method does not have, or has empty, is never counted. */
function isCounted(ground: Ground, one: PinnedStep, ask: TallyAsk): boolean {
  const positions = positionsOf(one, ask.group)
  return positions.length > 0 && positions.every((position) => hasReached(ground, position, ask.to))
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

/** Whether an answered ask lets a hold point pass. */
export function isInside(ground: Ground, one: PinnedStep, ask: Ask): boolean {
  const answers = registersOfAsk(ground, one, ask).flatMap((register) => register?.answer ?? [])
  return !answers.some((answer) => isBad(ground, one, ask, answer))
}

function isBad(ground: Ground, one: PinnedStep, ask: Ask, answer: Entry): boolean {
  if (answer.kind === 'result' && answer.body.verdict === 'outside') return true
  return valueFault(ground, one, ask, answer) !== undefined
}
