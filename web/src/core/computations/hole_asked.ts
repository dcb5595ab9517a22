/** A measured hole with the rules that decide about it, and what they decide. Model "hole-1". */
import { difference, figure, numberOf, rounded } from './figures.ts'
import type { MeasuredHole } from './hole_measured.ts'
import { type HoleRoom, lackOf, roomAt, worstOf } from './hole_room.ts'
import { find, type Question, quantity } from './question.ts'
import { type Line, line, Refusal } from './shapes.ts'

type Range = readonly [low: number, high: number]
export type AskedHole = {
  readonly nominal: number
  readonly largest: number
  readonly smallest: number
  readonly ovalityAllowed: number
  readonly isOval: boolean
  /** In the layer that is worst for the larger size. */
  readonly edge: number | undefined
  readonly edgeDiameters: number
  readonly pitch: number | undefined
  readonly room: HoleRoom
  readonly range: Range
  /** The next size, where one is kept. */
  readonly larger: number | undefined
}
export type Decision = {
  readonly code: 'reuse' | 'open_to_nominal' | 'next_size' | 'ask_maker'
  readonly why: string
  readonly rivet?: number
  readonly drillTo?: number | undefined
}
/** Why a hole is not used as it is, in the order in which it is told. */
export const WHYS = [
  'smaller',
  'beyond_next',
  'none_kept',
  'room_unknown',
  'edge_short',
  'pitch_short',
  'still_oval',
  'worn',
  'own_edge_short',
  'own_pitch_short',
] as const
/** Hole over nominal, mm (ISO 15977 family, from memory). */
const OVER_MM = [0.1, 0.2] as const

export function askedHole(asked: Question, measured: MeasuredHole, position = ''): AskedHole {
  const { largest, ovality } = measured
  if (ovality.value < 0) throw new Refusal('ovality', 'under_zero')
  const nominal = numberOf(quantity(asked, 'nominal'))
  const smallest = numberOf(difference('smallest', largest, ovality, 'mm'))
  refuseSlip('largest', numberOf(largest), nominal)
  refuseSlip('ovality', smallest, nominal)
  const ovalityAllowed = numberOf(quantity(asked, 'ovality_allowed'))
  const next = find(asked, 'next_size', 'quantity')
  const larger = next === undefined || numberOf(next) <= nominal ? undefined : numberOf(next)
  const room = roomAt(asked, position, measured)
  const worst = worstOf(room, larger ?? nominal)
  return {
    nominal,
    largest: numberOf(largest),
    smallest,
    ovalityAllowed,
    isOval: isOver(numberOf(ovality), ovalityAllowed),
    edge: worst.edge && numberOf(worst.edge),
    edgeDiameters: worst.edgeDiameters,
    pitch: room.pitch.found && numberOf(room.pitch.found),
    room,
    range: rangeOf(asked, nominal),
    larger,
  }
}

/** A hole under half or over twice its nominal is a slip of unit or decimal point. */
function refuseSlip(field: string, found: number, nominal: number): void {
  if (found < nominal / 2 || found > nominal * 2) throw new Refusal(field, 'slip')
}

/** The method's own hole, else 0.1 to 0.2 mm over the nominal. */
function rangeOf({ facts }: Question, nominal: number): Range {
  const [low, high] = [facts?.['rivet.hole_min_mm'], facts?.['rivet.hole_max_mm']]
  return low === undefined || high === undefined ? usualRange(nominal) : [numberOf(low), numberOf(high)]
}

function usualRange(nominal: number): Range {
  return [nominal + OVER_MM[0], nominal + OVER_MM[1]]
}

/** A hole that keeps its size goes to the maker where its own edge or pitch is short. */
export function decide(hole: AskedHole): Decision {
  const found = bySize(hole)
  const short = lackOf(hole.room, hole.nominal)
  return short === '' || !['reuse', 'open_to_nominal'].includes(found.code)
    ? found
    : { code: 'ask_maker', why: `own_${short}` }
}

function bySize(hole: AskedHole): Decision {
  const [low, high] = hole.range
  if (isOver(hole.largest, high) || (hole.isOval && isOver(hole.largest, low))) return goUp(hole)
  if (isOver(low, hole.smallest)) {
    return { code: 'open_to_nominal', why: 'smaller', rivet: hole.nominal, drillTo: drill(low, hole) }
  }
  return { code: 'reuse', why: '', rivet: hole.nominal }
}

/** One size up at most, if it takes the hole and has its room. */
function goUp(hole: AskedHole): Decision {
  const size = hole.larger
  if (size === undefined) return { code: 'ask_maker', why: 'none_kept' }
  const [low, high] = usualRange(size)
  if (isOver(hole.largest, high)) return { code: 'ask_maker', why: 'beyond_next' }
  const lacking = noRoomFor(size, hole)
  if (lacking !== '') return { code: 'ask_maker', why: lacking }
  if (hole.isOval && isOver(hole.largest, low)) return { code: 'ask_maker', why: 'still_oval' }
  return { code: 'next_size', why: 'worn', rivet: size, drillTo: drill(low, hole) }
}

function noRoomFor(size: number, { edge, edgeDiameters, pitch, room }: AskedHole): string {
  if (edge === undefined || pitch === undefined) return 'room_unknown'
  if (isOver(edgeDiameters * size, edge)) return 'edge_short'
  return isOver(room.pitchDiameters * size, pitch) ? 'pitch_short' : ''
}

/** With a larger size kept: what it needs of edge and neighbours in each layer. */
export function nextSizeNeeds({ larger: size, room: { layers } }: AskedHole): readonly Line[] {
  if (size === undefined) return []
  return layers.map(({ name, edgeDiameters, pitchDiameters }) =>
    line(layers.length > 1 ? 'layer_needs' : 'next_size_needs', 'note', layers.length > 1 ? [name] : [], [
      figure('rivet', size, 'mm', 1),
      figure('edge', edgeDiameters * size, 'mm', 2),
      figure('pitch', pitchDiameters * size, 'mm', 2),
    ]),
  )
}

function drill(to: number, hole: AskedHole): number | undefined {
  return isOver(hole.largest, to) ? undefined : to
}

/** Compared in hundredths of a millimetre. */
function isOver(length: number, limit: number): boolean {
  return rounded(length, 2) > rounded(limit, 2)
}
