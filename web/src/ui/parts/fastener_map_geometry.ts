// Geometry of the fastener map in px of the screen: scale, zoom, nearest position, where numbers stand.

export type Point = { readonly x: number; readonly y: number }
export type Place = Point & { readonly id: string }
export type Size = { readonly w: number; readonly h: number }

/** The smallest thing that a glove presses. */
export const TARGET_PX = 56
/** A rivet on the map, and the least that it keeps where the whole drawing is to be seen. */
const MARK_PX = 28
const SMALL_MARK_PX = 14
/** A tap this near the picked position moves its rivet on; farther off it does nothing. */
export const OWN_PX = 36
const LEAST_ZOOM_RANGE = 3

export function distance(one: Point, other: Point): number {
  return Math.hypot(one.x - other.x, one.y - other.y)
}

/** A tap takes the nearest position, however far. */
export function nearest<P extends Point>(places: readonly P[], at: Point): P | undefined {
  return places.reduce<P | undefined>(
    (best, one) => (best === undefined || distance(one, at) < distance(best, at) ? one : best),
    undefined,
  )
}

/** The distance of the two positions that stand closest; Infinity for fewer than two. */
export function spacing(places: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY
  for (const [index, one] of places.entries()) {
    for (const other of places.slice(index + 1)) least = Math.min(least, distance(one, other))
  }
  return least
}

export type ZoomRange = { readonly min: number; readonly first: number; readonly max: number }

/** No wider at first: the whole part is to be seen without turning the head. */
const FIRST_WIDTH_PX = 440

/**
 * Zoom 1 fills the window's width; the least shows the whole drawing. The first view is as wide as a phone and so
 * wide that rivets do not overlap; the last one sets the two that stand closest a glove's target apart.
 */
export function zoomRange(places: readonly Point[], size: Size, window: Size): ZoomRange {
  const least_px = (spacing(places) * window.w) / size.w
  const max = Math.max(LEAST_ZOOM_RANGE, TARGET_PX / least_px)
  const whole = window.h === 0 ? 1 : Math.min(1, (window.h * size.w) / size.h / window.w)
  const first = Math.max(whole, Math.min(1, FIRST_WIDTH_PX / window.w), (MARK_PX + 4) / least_px)
  return { min: whole, first: clamp(first, whole, max), max }
}

export function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high)
}

/** How large a rivet is drawn: as the state vocabulary says, smaller only where two would overlap. */
export function markSize(spacing_px: number): number {
  return clamp(spacing_px - 2, SMALL_MARK_PX, MARK_PX)
}

export function scaled(places: readonly Place[], scale: number): readonly Place[] {
  return places.map(({ id, x, y }) => ({ id, x: x * scale, y: y * scale }))
}

/** The scroll that puts a point in the middle of the window, as far as the drawing reaches. */
export function centred(point: Point, window: Size, content: Size): Point {
  return {
    x: clamp(point.x - window.w / 2, 0, Math.max(0, content.w - window.w)),
    y: clamp(point.y - window.h / 2, 0, Math.max(0, content.h - window.h)),
  }
}

/** The scroll after a zoom by `by`, so that what lay under `anchor` (px in the window) still lies there. */
export function scrollAbout(scroll: Point, anchor: Point, by: number): Point {
  return { x: (scroll.x + anchor.x) * by - anchor.x, y: (scroll.y + anchor.y) * by - anchor.y }
}

/** The side of a rivet on which its number stands. */
export type Side = 'above' | 'below' | 'left' | 'right'
const SIDES: readonly (readonly [Side, Point])[] = [
  ['above', { x: 0, y: -1 }],
  ['below', { x: 0, y: 1 }],
  ['left', { x: -1, y: 0 }],
  ['right', { x: 1, y: 0 }],
]
/** From a rivet's middle to the middle of its number; a number is wider than high. */
const OFF = { x: 37, y: 35 }
const ROOM_PX = 30
const EDGE = { x: 13, y: 9 }
const SAME_SIDE_BONUS = 3
const OUTWARD_BONUS = 4
const ROW_PENALTY = 24
const NEIGHBOURS = 2

/**
 * Where each position's number stands: beside its rivet and beside its row, on the side with the most room from
 * other rivets and numbers, outwards rather than inwards, inside the drawing.
 */
export function sidesOfNumbers(places: readonly Place[], content: Size): ReadonlyMap<string, Side> {
  const put: Point[] = []
  const sides = new Map<string, Side>()
  const middle = middleOf(places)
  let before: Side | undefined
  for (const place of places) {
    const rivets = places.filter((one) => one !== place)
    const row = [...rivets].sort((one, other) => distance(one, place) - distance(other, place))
    const rated = SIDES.map(([side, to]) => {
      const at = numberAt(place, side)
      const free = Math.min(ROOM_PX, ...[...rivets, ...put].map((one) => distance(one, at)))
      const along = Math.max(0, ...row.slice(0, NEIGHBOURS).map((one) => inRow(towards(place, one, to))))
      const outward = -towards(place, middle, to)
      const same = side === before ? SAME_SIDE_BONUS : 0
      const worth = free - ROW_PENALTY * along + OUTWARD_BONUS * outward + same - outside(at, content)
      return { side, at, worth }
    })
    const best = rated.reduce((one, other) => (other.worth > one.worth ? other : one))
    before = best.side
    put.push(best.at)
    sides.set(place.id, best.side)
  }
  return sides
}

/** The middle of a position's number. */
export function numberAt(place: Point, side: Side): Point {
  const [, to] = SIDES.find(([one]) => one === side) ?? ['above', { x: 0, y: -1 }]
  return { x: place.x + to.x * OFF.x, y: place.y + to.y * OFF.y }
}

/** How far a direction goes along the way from one point to another: 1 = straight there, -1 = straight away. */
function towards(from: Point, other: Point, direction: Point): number {
  const far = distance(from, other)
  return far === 0 ? 0 : (direction.x * (other.x - from.x) + direction.y * (other.y - from.y)) / far
}

/** A number before or behind a row's end is in the row too, but hides nobody's rivet. */
function inRow(along: number): number {
  return along > 0 ? along : -0.35 * along
}

function middleOf(points: readonly Point[]): Point {
  const sum = points.reduce((all, one) => ({ x: all.x + one.x, y: all.y + one.y }), { x: 0, y: 0 })
  return { x: sum.x / points.length, y: sum.y / points.length }
}

function outside(at: Point, { w, h }: Size): number {
  const inside = at.x >= EDGE.x && at.x <= w - EDGE.x && at.y >= EDGE.y && at.y <= h - EDGE.y
  return inside ? 0 : ROOM_PX
}

export type Box = Point & Size

/**
 * The largest box of the drawing that keeps `margin` from every position and from every box in its way: the
 * tally sits in it where it has room. Both in the same unit.
 */
export function aperture(size: Size, points: readonly Point[], boxes: readonly Box[], margin: number): Box {
  const blocked = [
    ...points.map(({ x, y }) => ({ x: x - margin, y: y - margin, w: 2 * margin, h: 2 * margin })),
    ...boxes,
  ]
  const xs = edges(
    0,
    size.w,
    blocked.flatMap(({ x, w }) => [x, x + w]),
  )
  let best: Box = { x: 0, y: 0, w: 0, h: 0 }
  for (const [index, left] of xs.entries()) {
    for (const right of xs.slice(index + 1)) {
      const inside = blocked.filter((one) => one.x < right && one.x + one.w > left)
      const free = tallestGap(size.h, inside)
      if ((right - left) * free.h > best.w * best.h) best = { x: left, w: right - left, ...free }
    }
  }
  return best
}

function edges(low: number, high: number, values: readonly number[]): readonly number[] {
  return [...new Set([low, high, ...values.filter((one) => one > low && one < high)])].sort((a, b) => a - b)
}

function tallestGap(height: number, boxes: readonly Box[]): { y: number; h: number } {
  let best = { y: 0, h: 0 }
  let from = 0
  for (const { y, h } of [...boxes].sort((one, other) => one.y - other.y)) {
    if (y - from > best.h) best = { y: from, h: y - from }
    from = Math.max(from, y + h)
  }
  return height - from > best.h ? { y: from, h: height - from } : best
}
