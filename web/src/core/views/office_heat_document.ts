/** A heat zone's document as it is read or edited: a member may be missing, or not be a number yet. */
import type { Json, JsonObject } from '../canonical.ts'

export type Path = readonly (string | number)[]
/** In mm from the zone's lower left corner: from x, from y, to x, to y. */
export type Box = readonly [x0: number, y0: number, x1: number, y1: number]
export type Point = readonly [x: number, y: number]

export type JointLayer = {
  readonly id: string
  readonly name: string
  readonly role: string
  readonly thickness_mm: number
  /** Where it lies; the whole zone if the document does not say. */
  readonly covers: readonly Box[]
  readonly limit_C?: number
}
export type JointPad = { readonly id: string; readonly name: string; readonly box: Box }
export type JointSensor = { readonly id: string; readonly at: Point; readonly layer: string }
export type JointNeighbour = {
  readonly id: string
  readonly name: string
  readonly kind: string
  readonly at: Point
  readonly layer: string
  readonly limit_C: number
}
export type JointProfile = {
  readonly box: Box
  readonly wall_mm: number
  readonly depth_mm: number
  readonly webs: readonly { readonly y_mm: number; readonly thickness_mm: number }[]
}
/** What of a zone can be drawn. */
export type Joint = {
  readonly size: Point
  readonly layers: readonly JointLayer[]
  readonly bond: string
  readonly workable_C: number
  readonly maximum_C: number
  readonly pads: readonly JointPad[]
  readonly sensors: readonly JointSensor[]
  readonly neighbours: readonly JointNeighbour[]
  readonly profile?: JointProfile
  /** How far the heated layer runs on beyond each side, mm. */
  readonly on: {
    readonly x_low: number
    readonly x_high: number
    readonly y_low: number
    readonly y_high: number
  }
}

const isObject = (one: Json | undefined): one is JsonObject =>
  typeof one === 'object' && one !== null && !Array.isArray(one)

export function at(document: Json | undefined, path: Path): Json | undefined {
  let found: Json | undefined = document
  for (const key of path) {
    if (Array.isArray(found)) found = found[Number(key)] as Json | undefined
    else found = isObject(found) ? found[String(key)] : undefined
  }
  return found
}

/** The document with one member set, or removed where `value` is undefined; what lies on the way is made. */
export function withAt(document: Json | undefined, path: Path, value: Json | undefined): Json {
  const [key, ...rest] = path
  if (key === undefined) return value ?? {}
  if (typeof key === 'number') return withItem(Array.isArray(document) ? document : [], key, rest, value)
  const before = isObject(document) ? document : {}
  if (rest.length === 0 && value === undefined) {
    return Object.fromEntries(Object.entries(before).filter(([name]) => name !== key))
  }
  return { ...before, [key]: withAt(before[key], rest, value) }
}

function withItem(before: readonly Json[], key: number, rest: Path, value: Json | undefined): Json {
  if (rest.length === 0 && value === undefined) return before.filter((_, number) => number !== key)
  const items: Json[] = [...before]
  while (items.length < key) items.push('')
  items[key] = withAt(before[key], rest, value)
  return items
}

/** Sets what was typed; what it was the last figure of goes with it, so that no empty list or group stays behind. */
export function typedInto(document: Json, path: Path, value: Json | undefined): Json {
  const list = path.slice(0, -1)
  const inList = typeof path.at(-1) === 'number'
  const set = withAt(document, path, inList ? (value ?? '') : value)
  const left = Object.values((at(set, list) ?? {}) as JsonObject)
  const isGroup = list.length > 0 && typeof list.at(-1) === 'string'
  return isGroup && left.every((one) => one === '') ? typedInto(set, list, undefined) : set
}

/** As faults name a member: pads[1].box_mm. */
export function pathName(path: Path): string {
  return path
    .map((key, number) => (typeof key === 'number' ? `[${key}]` : `${number === 0 ? '' : '.'}${key}`))
    .join('')
}

const numberAt = (from: Json | undefined, path: Path): number => {
  const found = at(from, path)
  return typeof found === 'number' ? found : Number.NaN
}
const textAt = (from: Json | undefined, path: Path): string => {
  const found = at(from, path)
  return typeof found === 'string' ? found : ''
}
const listAt = (from: Json | undefined, path: Path): readonly Json[] => {
  const found = at(from, path)
  return Array.isArray(found) ? found : []
}
/** Has it all the figures that a drawing needs? */
export const canBeDrawn = (figures: readonly number[]): boolean => figures.every(Number.isFinite)
const nameOf = (one: Json): string => textAt(one, ['name']) || textAt(one, ['id'])
const boxOf = (one: Json | undefined): Box => [
  numberAt(one, [0]),
  numberAt(one, [1]),
  numberAt(one, [2]),
  numberAt(one, [3]),
]
const pointOf = (one: Json | undefined): Point => [numberAt(one, [0]), numberAt(one, [1])]
const orNothing = (figure: number): number => (Number.isFinite(figure) ? figure : 0)

function layerOf(one: Json, whole: Box): JointLayer {
  const covers = listAt(one, ['covers_mm']).map(boxOf).filter(canBeDrawn)
  const limit_C = numberAt(one, ['limit_C'])
  return {
    id: textAt(one, ['id']),
    name: nameOf(one),
    role: textAt(one, ['role']),
    thickness_mm: orNothing(numberAt(one, ['thickness_mm'])),
    covers: at(one, ['covers_mm']) === undefined ? [whole] : covers,
    ...(Number.isFinite(limit_C) ? { limit_C } : {}),
  }
}

const PROFILE_DEPTH_MM = 40

function profileOf(one: Json | undefined): JointProfile | undefined {
  const box = boxOf(at(one, ['box_mm']))
  if (one === undefined || !canBeDrawn(box)) return undefined
  const webs = listAt(one, ['webs'])
  const heights = webs.map((web) => numberAt(web, ['height_mm'])).filter(Number.isFinite)
  return {
    box,
    wall_mm: orNothing(numberAt(one, ['wall', 'thickness_mm'])),
    depth_mm: heights.length > 0 ? Math.max(...heights) : PROFILE_DEPTH_MM,
    webs: webs
      .map((web) => ({ y_mm: numberAt(web, ['y_mm']), thickness_mm: numberAt(web, ['thickness_mm']) }))
      .filter((web) => canBeDrawn([web.y_mm, web.thickness_mm])),
  }
}

/** What can be drawn of a document; a pad or place without all its figures is left out. */
export function jointOf(document: Json): Joint {
  const size: Point = [
    orNothing(numberAt(document, ['size_mm', 0])) || 1,
    orNothing(numberAt(document, ['size_mm', 1])) || 1,
  ]
  const profile = profileOf(at(document, ['profile']))
  const bond = textAt(document, ['bondline', 'layer'])
  const runs = (side: string): number =>
    Math.max(0, orNothing(numberAt(document, ['edges', side, 'runs_on_mm'])))
  return {
    size,
    layers: listAt(document, ['layers']).map((one) => layerOf(one, [0, 0, ...size])),
    bond,
    workable_C: numberAt(document, ['bondline', 'workable_C']),
    maximum_C: numberAt(document, ['bondline', 'maximum_C']),
    pads: listAt(document, ['pads']).map((one) => ({
      id: textAt(one, ['id']),
      name: nameOf(one),
      box: boxOf(at(one, ['box_mm'])),
    })),
    sensors: listAt(document, ['sensors']).map((one) => ({
      id: textAt(one, ['id']),
      at: pointOf(at(one, ['at_mm'])),
      layer: textAt(one, ['layer']) || bond,
    })),
    neighbours: listAt(document, ['neighbours']).map((one) => ({
      id: textAt(one, ['id']),
      name: nameOf(one),
      kind: textAt(one, ['kind']),
      at: pointOf(at(one, ['at_mm'])),
      layer: textAt(one, ['layer']),
      limit_C: numberAt(one, ['limit_C']),
    })),
    ...(profile ? { profile } : {}),
    on: { x_low: runs('x_low'), x_high: runs('x_high'), y_low: runs('y_low'), y_high: runs('y_high') },
  }
}
