/** Where things lie on a heat zone: what is drawn of it, how far apart things are, and how they are moved. */
import type { Json } from '../canonical.ts'
import { at, type Box, canBeDrawn, type Joint, jointOf, type Point, withAt } from './office_heat_document.ts'

export type Thing = { readonly kind: 'pads' | 'sensors' | 'neighbours'; readonly number: number }
/** The drawn part of the plane, in mm. */
export type Extent = { readonly x0: number; readonly y0: number; readonly x1: number; readonly y1: number }

const ROOM_MM = 12
const SHARE_RUN_ON = 0.1
const STEP_MM = 0.5

/** All that is drawn: the zone, the beginning of what its metal runs on by, and every neighbour, with some room. */
export function extentOf({ size, on, neighbours }: Joint): Extent {
  const places = neighbours.map((one) => one.at).filter(canBeDrawn)
  const shown = (runs_on_mm: number): number => Math.min(runs_on_mm, SHARE_RUN_ON * Math.max(...size))
  return {
    x0: Math.min(-shown(on.x_low), ...places.map(([x]) => x - ROOM_MM)) - ROOM_MM,
    y0: Math.min(-shown(on.y_low), ...places.map(([, y]) => y - ROOM_MM)) - ROOM_MM,
    x1: Math.max(size[0] + shown(on.x_high), ...places.map(([x]) => x + ROOM_MM)) + ROOM_MM,
    y1: Math.max(size[1] + shown(on.y_high), ...places.map(([, y]) => y + ROOM_MM)) + ROOM_MM,
  }
}

/** Shares of the drawn part, from its upper left corner. */
export function shareOf({ x0, y0, x1, y1 }: Extent, [x, y]: Point): Point {
  return [(x - x0) / (x1 - x0), (y1 - y) / (y1 - y0)]
}

/** A round step for a ruler of about `many` marks. */
function rulerStep_mm(length_mm: number, many: number): number {
  const rough = length_mm / many
  const ten = 10 ** Math.floor(Math.log10(rough))
  return [1, 2, 5, 10].map((times) => times * ten).find((step) => step >= rough) ?? 10 * ten
}

/** Marks of a ruler over the zone, from its corner on. */
export function rulerMarks_mm(length_mm: number, many: number): readonly number[] {
  const step = rulerStep_mm(length_mm, many)
  return Array.from({ length: Math.floor(length_mm / step) + 1 }, (_, number) => number * step)
}

const snapped = (mm: number): number => Math.round(mm / STEP_MM) * STEP_MM
const within = (mm: number, low: number, high: number): number =>
  Math.min(Math.max(mm, low), Math.max(low, high))

/** The document with one pad, sensor or neighbour moved; a pad stays on the zone, a place on the drawn metal. */
export function moved(document: Json, { kind, number }: Thing, [dx, dy]: Point): Json {
  const joint = jointOf(document)
  if (kind === 'pads') {
    const box = joint.pads[number]?.box
    return box && canBeDrawn(box)
      ? withAt(document, [kind, number, 'box_mm'], shifted(box, [dx, dy], joint))
      : document
  }
  const from = joint[kind][number]?.at
  if (from === undefined || !canBeDrawn(from)) return document
  const { size, on } = joint
  return withAt(
    document,
    [kind, number, 'at_mm'],
    [
      within(snapped(from[0] + dx), 0 - on.x_low, size[0] + on.x_high),
      within(snapped(from[1] + dy), 0 - on.y_low, size[1] + on.y_high),
    ],
  )
}

function shifted(box: Box, [dx, dy]: Point, { size }: Joint): Json {
  const [w, h] = [box[2] - box[0], box[3] - box[1]]
  const x = within(snapped(box[0] + dx), 0, size[0] - w)
  const y = within(snapped(box[1] + dy), 0, size[1] - h)
  return [x, y, x + w, y + h]
}

/** How far a place is outside a box; 0 on it. */
function outside_mm([x, y]: Point, [x0, y0, x1, y1]: Box): number {
  return Math.hypot(Math.max(x0 - x, 0, x - x1), Math.max(y0 - y, 0, y - y1))
}

/** How far a place on a box is from the box's nearest edge; 0 outside. */
export function inside_mm([x, y]: Point, [x0, y0, x1, y1]: Box): number {
  return Math.max(0, Math.min(x - x0, x1 - x, y - y0, y1 - y))
}

/**
 * What a pointer takes at a place: what is chosen, if it is within reach, else the nearest sensor or neighbour, else
 * the pad there.
 */
export function thingAt(
  joint: Joint,
  place: Point,
  reach_mm: number,
  chosen: Thing | undefined,
): Thing | undefined {
  const away = ({ kind, number }: Thing): number => {
    if (kind === 'pads') return outside_mm(place, joint.pads[number]?.box ?? NOWHERE)
    const [x, y] = joint[kind][number]?.at ?? NOWHERE
    return Math.hypot(x - place[0], y - place[1])
  }
  if (chosen && chosen.kind !== 'pads' && away(chosen) <= reach_mm) return chosen
  const places = (['sensors', 'neighbours'] as const).flatMap((kind) =>
    joint[kind].map((_, number): Thing => ({ kind, number })),
  )
  const [first] = places.filter((one) => away(one) <= reach_mm).sort((a, b) => away(a) - away(b))
  const pads = joint.pads.map((_, number): Thing => ({ kind: 'pads', number }))
  return first ?? pads.find((one) => away(one) === 0)
}

const NOWHERE: Box = [Number.NaN, Number.NaN, Number.NaN, Number.NaN]

/** The place of a share of the drawn part, from its upper left corner. */
export function placeOf({ x0, y0, x1, y1 }: Extent, [across, down]: Point): Point {
  return [x0 + across * (x1 - x0), y1 - down * (y1 - y0)]
}

export type NearPad = { readonly pad: string; readonly away_mm: number; readonly on: boolean }

/** The pad that is nearest to a place: on it (and how far from its edge), or beside it. */
export function nearestPad(joint: Joint, place: Point): NearPad | undefined {
  const pads = joint.pads.filter((pad) => canBeDrawn(pad.box))
  const [first, ...others] = pads
  if (first === undefined) return undefined
  const away = (box: Box): number => outside_mm(place, box)
  const { id, box } = others.reduce((best, one) => (away(one.box) < away(best.box) ? one : best), first)
  const on = away(box) === 0
  return { pad: id, away_mm: on ? inside_mm(place, box) : away(box), on }
}

/** A new pad, sensor or neighbour of its own id, in the middle of the zone. */
export function added(document: Json, kind: Thing['kind']): Json {
  const joint = jointOf(document)
  const number = joint[kind].length
  const [x, y] = [snapped(joint.size[0] / 2), snapped(joint.size[1] / 2)]
  const id = freeOf(
    LETTERS[kind],
    joint[kind].map((one) => one.id),
  )
  return withAt(document, [kind, number], fresh(kind, id, [x, y], joint))
}

const LETTERS = { pads: 'P', sensors: 's', neighbours: 'n' } as const

function freeOf(begins: string, used: readonly string[]): string {
  let number = 1
  while (used.includes(`${begins}${number}`)) number += 1
  return `${begins}${number}`
}

function fresh(kind: Thing['kind'], id: string, [x, y]: Point, joint: Joint): Json {
  switch (kind) {
    case 'pads':
      return {
        id,
        box_mm: [x - 50, y - 25, x + 50, y + 25],
        setpoint_C: 300,
        power_W_cm2: 1.5,
        contact_W_m2K: 150,
      }
    case 'sensors':
      return { id, at_mm: [x, y] }
    case 'neighbours':
      return { id, name: '', kind: 'other', at_mm: [x, y], layer: joint.layers[0]?.id ?? '', limit_C: 80 }
    default:
      return kind satisfies never
  }
}

/** One layer more, innermost, everywhere on the zone. */
export function addedLayer(document: Json): Json {
  const { layers } = jointOf(document)
  const id = freeOf(
    'layer',
    layers.map((one) => one.id),
  )
  return withAt(document, ['layers', layers.length], {
    id,
    role: 'other',
    thickness_mm: 1,
    conductivity_x_W_mK: 1,
    conductivity_y_W_mK: 1,
    conductivity_through_W_mK: 1,
    density_kg_m3: 1000,
    specific_heat_J_kgK: 1000,
  })
}

/** The document without one of them. */
export function removed(document: Json, { kind, number }: Thing): Json {
  return at(document, [kind, number]) === undefined ? document : withAt(document, [kind, number], undefined)
}

/** Minutes of an earlier run, of the heated layer until another is chosen. */
export function addedEarlier(document: Json): Json {
  const found = at(document, ['earlier_runs'])
  const place = Array.isArray(found) ? found.length : 0
  const layer = jointOf(document).layers[0]?.id ?? ''
  return withAt(document, ['earlier_runs', place], { layer, above_C: 150, minutes: 0 })
}
