/** The tally: where every position stands, its marks, and the pieces that are owed and lost. */
import type { Entry, LadderState, Piece, TallyMarkBody, TallyStateBody } from '../entries.ts'
import { isTallyMark } from '../entries.ts'
import { LADDER, type Ladder } from '../method.ts'
import type { CardState, MarkState, PieceCounts, PlaceInCount, PositionState } from '../state.ts'
import { type Log, unstruck } from './log.ts'
import { greatest, grouped, sorted } from './order.ts'
import type { Pinned } from './revisions.ts'

export type TallyEntry = Extract<Entry, { kind: 'tally' }>
export type MarkEntry = TallyEntry & { readonly body: TallyMarkBody }
export type RungEntry = TallyEntry & { readonly body: TallyStateBody }

/** One generation of a position: the rivet found on the car is 0, the first one set is 1. */
export type Rivet = { readonly generation: number; readonly deciding: RungEntry | undefined }
/** All that is recorded at one position, whether a pinned group has it or not. */
export type Spot = {
  readonly position: string
  readonly entries: readonly TallyEntry[]
  readonly rivets: readonly Rivet[]
  readonly marks: readonly MarkState[]
}
export type Tally = {
  readonly spots: ReadonlyMap<string, Spot>
  /** One row for each position of the pinned groups. */
  readonly positions: readonly PositionState[]
}

const RUNG = new Map(LADDER.map((state, rung) => [state, rung]))

export function rungOf(state: LadderState): number {
  return RUNG.get(state) ?? -1
}

export function readTally(log: Log, pinned: Pinned): Tally {
  const spots = spotsOf(unstruck(log, 'tally'))
  const positions = groupOfPositions(pinned).map(([position, group]) =>
    positionState(group, spots.get(position) ?? spotOf(position, [])),
  )
  return { spots, positions }
}

/** Spots by position, from tally entries that count. */
export function spotsOf(entries: readonly TallyEntry[]): ReadonlyMap<string, Spot> {
  const byPosition = grouped(entries, (entry) => entry.body.position)
  return new Map([...byPosition].map(([position, own]) => [position, spotOf(position, own)]))
}

/** Whether a rivet belongs to a count: taking out counts those found on the car, setting those set since. */
export function isCounted(generation: number, ladder: Ladder | undefined): boolean {
  return ladder === undefined || (generation === 0) === (ladder === 'taking_out')
}

/**
 * What a reconciliation of some positions rests on: the deciding entry of every rivet that the ladder counts, and
 * their marks. Without a ladder it is every rivet.
 */
export function inputsAt(spots: Tally['spots'], positions: readonly string[], ladder?: Ladder): string[] {
  const own = positions.flatMap((position) => spots.get(position) ?? [])
  const restsOn = own.flatMap(({ rivets, entries }) => [
    ...rivets.flatMap(({ deciding }) => deciding ?? []),
    ...entries.filter(isMark),
  ])
  return sorted(restsOn.filter(({ body }) => isCounted(body.generation, ladder)).map((entry) => entry.hash))
}

function isMark(entry: TallyEntry): entry is MarkEntry {
  return isTallyMark(entry.body)
}

function isRung(entry: TallyEntry): entry is RungEntry {
  return !isTallyMark(entry.body)
}

function spotOf(position: string, entries: readonly TallyEntry[]): Spot {
  const marks = entries.filter(isMark)
  const found = new Set(marks.map(({ body }) => (body.mark === 'found' ? body.lost : '')))
  const byGeneration = grouped(entries, (entry) => entry.body.generation)
  const rivets = [...byGeneration].map(([generation, own]) => ({ generation, deciding: decidingOf(own) }))
  return { position, entries, rivets, marks: marks.map((entry) => markState(entry, found)) }
}

/** The entry that decides a rivet's state: the highest rung, and of those the greatest (at_ms, hash). */
function decidingOf(entries: readonly TallyEntry[]): RungEntry | undefined {
  const rungs = entries.filter(isRung)
  const top = rungs.reduce((highest, entry) => Math.max(highest, rungOf(entry.body.state)), 0)
  return greatest(rungs.filter((entry) => rungOf(entry.body.state) === top))
}

function markState(entry: MarkEntry, found: ReadonlySet<string>): MarkState {
  const { mark, piece } = entry.body
  const open = mark === 'damaged_hole' || (mark === 'lost' && !found.has(entry.hash))
  return { hash: entry.hash, mark, piece, open }
}

/** Every position once, with the first group that has it, in the order of the pinned methods. */
function groupOfPositions(pinned: Pinned): [position: string, group: string][] {
  const groupOf = new Map<string, string>()
  for (const group of pinned.methods.flatMap((method) => method.groups)) {
    for (const position of group.positions) {
      if (!groupOf.has(position)) groupOf.set(position, group.id)
    }
  }
  return [...groupOf]
}

function positionState(group: string, spot: Spot): PositionState {
  const { position, marks } = spot
  const top = topRivet(spot)
  const state = top?.deciding?.body.state ?? ''
  const deciding = top?.deciding?.hash ?? ''
  return {
    position,
    group,
    generation: top?.generation ?? 0,
    state,
    deciding,
    marks,
    place: placeOf(state, spot),
  }
}

/** The rivet of the highest generation. */
export function topRivet(spot: Spot): Rivet | undefined {
  return spot.rivets.reduce<Rivet | undefined>(
    (top, rivet) => (top === undefined || rivet.generation > top.generation ? rivet : top),
    undefined,
  )
}

function placeOf(state: LadderState | '', spot: Spot): PlaceInCount {
  if (openLosts(spot).length > 0) return 'lost'
  return state === '' ? 'untouched' : state
}

export function openLosts(spot: Spot): readonly MarkState[] {
  return spot.marks.filter((mark) => mark.mark === 'lost' && mark.open)
}

export function countsOf(positions: readonly PositionState[]): CardState['counts'] {
  const counts: { [P in PlaceInCount]?: number } = {}
  for (const { place } of positions) counts[place] = (counts[place] ?? 0) + 1
  return counts
}

/** A rivet taken out owes three pieces; an open lost mark is one that nobody has. */
export function piecesOf(tally: Tally): CardState['pieces'] {
  const spots = [...tally.spots.values()]
  const out = spots
    .flatMap((spot) => spot.rivets)
    .filter((rivet) => rivet.deciding?.body.state === 'shank_out')
  const losts = spots.flatMap(openLosts)
  const lost = (piece: Piece) => losts.filter((mark) => mark.piece === piece).length
  return { owed: each(() => out.length), lost: each(lost) }
}

function each(count: (piece: Piece) => number): PieceCounts {
  return { head: count('head'), mandrel: count('mandrel'), shank: count('shank') }
}
