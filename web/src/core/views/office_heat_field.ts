/** The temperature field of a plan: its frames put together, its extremes, and lines of one temperature. */
import type { Point } from './office_heat_document.ts'

/** As the office's route sends it: tenths of a degree, each frame as differences against the one before. */
export type FieldFile = {
  readonly x_mm: readonly number[]
  readonly y_mm: readonly number[]
  readonly t_min: readonly number[]
  readonly layers: readonly FieldLayerFile[]
  readonly lowest_dC: number
  readonly highest_dC: number
}
export type FieldLayerFile = {
  readonly id: string
  readonly name: string
  readonly role: string
  /** Row by row from the lowest y: 1 where the layer lies, 0 where not. */
  readonly shown: readonly (readonly number[])[]
  readonly frames: readonly (readonly number[])[]
}
export type FieldLayer = Omit<FieldLayerFile, 'frames'> & {
  /** Tenths of a degree, row by row from the lowest y, x first. */
  readonly frames: readonly Int32Array[]
  /** Which points the layer reaches, and for each point the nearest of them. */
  readonly here: Uint8Array
  readonly nearest: Int32Array
}
export type Field = Omit<FieldFile, 'layers'> & { readonly layers: readonly FieldLayer[] }

export function fieldOf(file: FieldFile): Field {
  return { ...file, layers: file.layers.map((layer) => layerOf(file, layer)) }
}

function layerOf(file: FieldFile, { frames, ...layer }: FieldLayerFile): FieldLayer {
  const points = file.x_mm.length * file.y_mm.length
  let before = new Int32Array(points)
  const whole = frames.map((differences) => {
    before = before.map((value, number) => value + (differences[number] ?? 0))
    return before
  })
  const here = Uint8Array.from(layer.shown.flat())
  return { ...layer, frames: whole, here, nearest: nearestOf(file, here) }
}

/** A picture that is drawn smoothly needs a value beyond the layer's edge too: that of the nearest point on it. */
function nearestOf({ x_mm, y_mm }: FieldFile, here: Uint8Array): Int32Array {
  const columns = x_mm.length
  const reached = [...here.keys()].filter((number) => here[number] === 1)
  const far = (one: number, two: number): number =>
    Math.hypot(
      (x_mm[one % columns] ?? 0) - (x_mm[two % columns] ?? 0),
      (y_mm[Math.floor(one / columns)] ?? 0) - (y_mm[Math.floor(two / columns)] ?? 0),
    )
  return Int32Array.from(here, (lies, number) =>
    lies === 1
      ? number
      : reached.reduce(
          (best, one) => (far(one, number) < far(best, number) ? one : best),
          reached[0] ?? number,
        ),
  )
}

export type Extremes = { readonly lowest_dC: number; readonly highest_dC: number; readonly hottest: Point }

/** The coldest and the hottest of a layer at one frame, and where the hottest is. */
export function extremesOf(field: Field, layer: FieldLayer, frame: number): Extremes | undefined {
  const values = layer.frames[frame]
  if (values === undefined) return undefined
  let [low, high, place] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0]
  values.forEach((value, number) => {
    if (layer.here[number] !== 1) return
    low = Math.min(low, value)
    if (value > high) [high, place] = [value, number]
  })
  if (!Number.isFinite(low)) return undefined
  const columns = field.x_mm.length
  const hottest: Point = [field.x_mm[place % columns] ?? 0, field.y_mm[Math.floor(place / columns)] ?? 0]
  return { lowest_dC: low, highest_dC: high, hottest }
}

/** The value at a place, between the four points around it; undefined where the layer does not lie. */
export function valueAt_dC(field: Field, layer: FieldLayer, frame: number, place: Point): number | undefined {
  const values = layer.frames[frame]
  const [across, along] = [between(field.x_mm, place[0]), between(field.y_mm, place[1])]
  if (values === undefined || across === undefined || along === undefined) return undefined
  const columns = field.x_mm.length
  const point = (row: number, column: number): number | undefined =>
    layer.here[row * columns + column] === 1 ? values[row * columns + column] : undefined
  const low = mixed(point(along.from, across.from), point(along.from, across.from + 1), across.share)
  const high = mixed(point(along.from + 1, across.from), point(along.from + 1, across.from + 1), across.share)
  return mixed(low, high, along.share)
}

/** At the layer's edge one of the two is missing: then the other stands for both. */
function mixed(low: number | undefined, high: number | undefined, share: number): number | undefined {
  if (low === undefined || high === undefined) return low ?? high
  return low + (high - low) * share
}

function between(
  marks: readonly number[],
  mm: number,
): { readonly from: number; readonly share: number } | undefined {
  const last = marks.length - 1
  const [first, end] = [marks[0], marks[last]]
  if (first === undefined || end === undefined || last < 1) return undefined
  const held = Math.min(Math.max(mm, first), end)
  const above = marks.findIndex((mark) => mark >= held)
  const from = Math.max(0, above - 1)
  const [low = held, high = held] = [marks[from], marks[from + 1]]
  return { from, share: high > low ? (held - low) / (high - low) : 0 }
}

/** The frame that is nearest to a time. */
export function frameAt(t_min: readonly number[], at_min: number): number {
  return t_min.reduce(
    (best, mark, number) => (Math.abs(mark - at_min) < Math.abs((t_min[best] ?? 0) - at_min) ? number : best),
    0,
  )
}

type Piece = readonly [from: Point, to: Point]

/** The pieces of the line where a layer has one temperature (marching squares over the points). */
export function lineOf(field: Field, layer: FieldLayer, frame: number, level_dC: number): readonly Piece[] {
  const values = layer.frames[frame]
  if (values === undefined) return []
  const pieces: Piece[] = []
  for (let row = 0; row + 1 < field.y_mm.length; row += 1) {
    for (let column = 0; column + 1 < field.x_mm.length; column += 1) {
      pieces.push(...cellPieces(field, layer, values, { row, column, level_dC }))
    }
  }
  return pieces
}

type Cell = { readonly row: number; readonly column: number; readonly level_dC: number }

function cellPieces(field: Field, layer: FieldLayer, values: Int32Array, cell: Cell): readonly Piece[] {
  const { row, column, level_dC } = cell
  const columns = field.x_mm.length
  const corners = [
    [row, column],
    [row, column + 1],
    [row + 1, column + 1],
    [row + 1, column],
  ].map(([r = 0, c = 0]) => {
    const number = r * columns + c
    return {
      x: field.x_mm[c] ?? 0,
      y: field.y_mm[r] ?? 0,
      over: (values[number] ?? 0) - level_dC,
      here: layer.here[number] === 1,
    }
  })
  if (corners.some((corner) => !corner.here)) return []
  const crossings: Point[] = []
  corners.forEach((from, number) => {
    const to = corners[(number + 1) % corners.length] ?? from
    if (from.over < 0 === to.over < 0) return
    const share = from.over / (from.over - to.over)
    crossings.push([from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share])
  })
  const pieces: Piece[] = []
  for (let at = 0; at + 1 < crossings.length; at += 2) {
    const [from, to] = [crossings[at], crossings[at + 1]]
    if (from && to) pieces.push([from, to])
  }
  return pieces
}
