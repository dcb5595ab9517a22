/** Where pads and sensors of a zone lie in the picture: cut out of the method's drawing, or in a row without one. */
import type { DrawingMap, MapBox, MapSpot, PadDoc, ZoneDoc } from '../../core/method.ts'

export type Box = { readonly x: number; readonly y: number; readonly w: number; readonly h: number }
export type PadAt = { readonly id: string; readonly box: Box }
export type SensorAt = { readonly id: string; readonly x: number; readonly y: number }
export type Setup = {
  /** What is shown of the drawing; the whole row where there is none. */
  readonly view: Box
  readonly pads: readonly PadAt[]
  readonly sensors: readonly SensorAt[]
  readonly drawn: boolean
}

/** Room round the outermost pad or sensor, as a share of the cut's longer side. */
const ROOM = 0.09
/** A row of pads where nothing is drawn, in units of its own. */
const ROW = { w: 640, pad_h: 90, gap: 12, top: 24 } as const

/** In a zone made of others a sensor is `<zone>_<id>`, and a pad says its zone. */
function isSpot(spot: MapSpot, zone: ZoneDoc, id: string, of?: string): boolean {
  if (of !== undefined) return spot.zone === of && spot.id === id
  return spot.zone === zone.id ? spot.id === id : `${spot.zone}_${spot.id}` === id
}

export function setupOf(zone: ZoneDoc, map: DrawingMap | undefined): Setup {
  const pads = zone.pads.flatMap((pad) => {
    const box = map?.pads.find((one) => isSpot(one, zone, pad.id, pad.zone))
    return box === undefined ? [] : [{ id: pad.id, box: boxOf(box) }]
  })
  if (map === undefined || pads.length < zone.pads.length || pads.length === 0) return rowOf(zone.pads)
  const sensors = zone.sensors.flatMap(({ id }) => {
    const spot = map.sensors.find((one) => isSpot(one, zone, id))
    return spot === undefined ? [] : [{ id, x: spot.x, y: spot.y }]
  })
  return { view: cutOf(pads, sensors, map.size), pads, sensors, drawn: true }
}

function boxOf({ x, y, w, h }: MapBox): Box {
  return { x, y, w, h }
}

function cutOf(
  pads: readonly PadAt[],
  sensors: readonly SensorAt[],
  [width, height]: readonly [number, number],
): Box {
  const xs = [...pads.flatMap(({ box }) => [box.x, box.x + box.w]), ...sensors.map(({ x }) => x)]
  const ys = [...pads.flatMap(({ box }) => [box.y, box.y + box.h]), ...sensors.map(({ y }) => y)]
  const room = ROOM * Math.max(width, height)
  const [left, top] = [Math.max(0, Math.min(...xs) - room), Math.max(0, Math.min(...ys) - room)]
  const [right, bottom] = [Math.min(width, Math.max(...xs) + room), Math.min(height, Math.max(...ys) + room)]
  return { x: left, y: top, w: right - left, h: bottom - top }
}

/** Side by side, as long as they are to each other where their sizes are known. */
function rowOf(pads: readonly PadDoc[]): Setup {
  const lengths = pads.map(({ size_mm }) => size_mm?.[0] ?? 1)
  const known = pads.every(({ size_mm }) => size_mm !== undefined)
  const shares = known ? lengths : pads.map(() => 1)
  const whole = shares.reduce((sum, one) => sum + one, 0)
  const room = ROW.w - ROW.gap * (pads.length + 1)
  let x: number = ROW.gap
  const placed = pads.map(({ id }, i) => {
    const box = { x, y: ROW.top, w: (room * (shares[i] ?? 1)) / whole, h: ROW.pad_h }
    x += box.w + ROW.gap
    return { id, box }
  })
  return {
    view: { x: 0, y: 0, w: ROW.w, h: ROW.pad_h + 2 * ROW.top },
    pads: placed,
    sensors: [],
    drawn: false,
  }
}
