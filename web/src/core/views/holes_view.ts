/**
 * What each hole allows, as far as it is read: for the map, its list and a position's sheet.
 *
 * The same decision as the step's computation, hole by hole, before all of them are read and whether or not it is
 * recorded. A hole that is marked damaged goes to the maker.
 */
import { numberOf } from '../computations/figures.ts'
import { type FoundHole, foundHole } from '../computations/hole_by_hole.ts'
import { figureAt, positionsOf as readPositions } from '../computations/hole_measured.ts'
import { type HoleRoom, roomAt } from '../computations/hole_room.ts'
import { roomLines } from '../computations/hole_room_lines.ts'
import { find, type Question } from '../computations/question.ts'
import { Refusal } from '../computations/shapes.ts'
import type { ComputeAsk } from '../method.ts'
import type { PositionState } from '../state.ts'
import { positionsOf } from './answers.ts'
import type { Card, StepPlace } from './card.ts'
import { gather } from './compute_inputs.ts'
import { soFarAt } from './compute_sources.ts'
import { hasDamage } from './tally_view.ts'

export type HoleWord = 'used' | 'opened' | 'larger' | 'to_maker' | 'not_read'
export type HoleView = {
  readonly position: string
  readonly word: HoleWord
  readonly isDamaged: boolean
  /** Undefined where it is not read, or cannot be worked out. */
  readonly found: FoundHole | undefined
  readonly room: HoleRoom
  /** Its rivet, and the next size where one is kept, mm. */
  readonly nominal: number
  readonly larger: number | undefined
  /** Those that are checked again because it goes up a size. */
  readonly neighbours: readonly string[]
  /** Its edge is to be read before it is drilled. */
  readonly wantsRoom: boolean
}

const WORDS = {
  reuse: 'used',
  open_to_nominal: 'opened',
  next_size: 'larger',
  ask_maker: 'to_maker',
} as const satisfies Record<FoundHole['decision']['code'], HoleWord>

const BY_CARD = new WeakMap<Card, readonly HoleView[]>()

/** Those that the map draws: all, once the first of them is read. */
export function drawnHoles(card: Card): readonly HoleView[] {
  const holes = holesOf(card)
  return holes.some(({ found }) => found !== undefined) ? holes : []
}

/** Of the positions that some step decides about. */
export function holesOf(card: Card): readonly HoleView[] {
  const known = BY_CARD.get(card)
  if (known !== undefined) return known
  const made = decisionsOf(card).flatMap(({ place, ask }) => holesAt(card, place, ask))
  BY_CARD.set(card, made)
  return made
}

type Decision = { readonly place: StepPlace; readonly ask: ComputeAsk }

function decisionsOf(card: Card): readonly Decision[] {
  return card.steps.flatMap((place) =>
    place.step.asks.flatMap((ask) =>
      ask.kind === 'compute' && ask.computation === 'hole_decision' ? [{ place, ask }] : [],
    ),
  )
}

function holesAt(card: Card, place: StepPlace, ask: ComputeAsk): readonly HoleView[] {
  const question = questionSoFar(card, place, ask)
  const read = 'along' in question.inputs || 'largest' in question.inputs ? readPositions(question) : []
  const positions = positionsOf(card, ask.groups ?? [])
  const named = (id: string): string =>
    positions.find(({ position }) => position.toLowerCase() === id)?.position ?? id
  return positions.map((at) => {
    const point = read.find((one) => one.toLowerCase() === at.position.toLowerCase())
    return holeAt(question, at, point, named)
  })
}

function holeAt(
  question: Question,
  at: PositionState,
  point: string | undefined,
  named: (id: string) => string,
): HoleView {
  const found = point === undefined ? undefined : foundOrNot(question, point)
  const isDamaged = hasDamage(at)
  const lines = found === undefined ? [] : roomLines(found.position, found.asked, found.decision)
  const word = isDamaged ? 'to_maker' : found === undefined ? 'not_read' : WORDS[found.decision.code]
  const room = found?.asked.room ?? unreadRoom(question, at.position.toLowerCase())
  return {
    position: at.position,
    word,
    isDamaged,
    found,
    room,
    nominal: mmOf(question, 'nominal') ?? 0,
    larger: mmOf(question, 'next_size'),
    neighbours: word === 'larger' ? room.pitch.neighbours.map(named) : [],
    wantsRoom: word === 'larger' && lines.some(({ code }) => code === 'measure_room'),
  }
}

function unreadRoom(question: Question, point: string): HoleRoom {
  const read = { edge: figureAt(question, 'edge', point), pitch: figureAt(question, 'pitch', point) }
  return roomAt(question, point, read)
}

function mmOf(question: Question, name: string): number | undefined {
  const found = find(question, name, 'quantity')
  return found && numberOf(found)
}

/** The step's own question, with the points that are read in the place of those that are all waited for. */
function questionSoFar(card: Card, place: StepPlace, ask: ComputeAsk): Question {
  const { question } = gather(card, place, ask)
  const read = (ask.inputs ?? []).flatMap((one) => {
    const [ref] = 'from' in one ? one.from : []
    const found = ref && soFarAt(card, ref)
    return found === undefined ? [] : [[one.name, found] as const]
  })
  return { ...question, inputs: { ...question.inputs, ...Object.fromEntries(read) } }
}

/** A slip, or one diameter of two: nothing is said of that hole. */
function foundOrNot(question: Question, point: string): FoundHole | undefined {
  try {
    return foundHole(question, point)
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return undefined
  }
}

/** Where the edge of a hole that goes up a size is read, if its step asks for it. */
export function roomAskOf(card: Card): { readonly place: StepPlace; readonly ask: string } | undefined {
  for (const { ask } of decisionsOf(card)) {
    const edge = ask.inputs?.find(({ name }) => name === 'edge')
    const [ref] = edge !== undefined && 'from' in edge ? edge.from : []
    const place =
      ref && card.steps.find(({ method, step }) => method.id === ref.method && step.id === ref.step)
    if (place !== undefined && ref !== undefined) return { place, ask: ref.ask }
  }
  return undefined
}
