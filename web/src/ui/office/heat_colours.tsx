// One frame of a layer's temperatures as colours, where the layer lies.
import type { JSX } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import { heatColour } from '../../core/views/office_heat_colours.ts'
import type { Box, Joint, Point } from '../../core/views/office_heat_document.ts'
import type { Field, FieldLayer } from '../../core/views/office_heat_field.ts'
import type { Extent } from '../../core/views/office_heat_place.ts'
import { boxed } from './heat_joint.tsx'

const PX_PER_MM = 2

/** What the points stand for: each its own cell, so half a step beyond the outer ones. */
function reachOf({ x_mm, y_mm }: Field): Box {
  const ends = (marks: readonly number[]): Point => {
    const half = ((marks[1] ?? 0) - (marks[0] ?? 0)) / 2
    return [(marks[0] ?? 0) - half, (marks.at(-1) ?? 0) + half]
  }
  const [x, y] = [ends(x_mm), ends(y_mm)]
  return [x[0], y[0], x[1], y[1]]
}

type ColoursProps = { field: Field; layer: FieldLayer; frame: number; joint: Joint; extent: Extent }

export function Colours({ field, layer, frame, joint, extent }: ColoursProps): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null)
  const reach = reachOf(field)
  useEffect(() => {
    const pen = canvas.current?.getContext('2d')
    if (pen) paint(pen, { field, layer, frame, covers: coversOf(joint, layer.id) })
  }, [field, layer, frame, joint])
  return (
    <canvas
      ref={canvas}
      class="hz-colours"
      style={boxed(extent, reach)}
      width={Math.round(PX_PER_MM * (reach[2] - reach[0]))}
      height={Math.round(PX_PER_MM * (reach[3] - reach[1]))}
    />
  )
}

type Frame = { field: Field; layer: FieldLayer; frame: number; covers: readonly Box[] }

const coversOf = (joint: Joint, layer: string): readonly Box[] =>
  joint.layers.find((one) => one.id === layer)?.covers ?? []

/** The points as a small picture, drawn large and smooth, and only where the layer lies. */
function paint(pen: CanvasRenderingContext2D, { field, layer, frame, covers }: Frame): void {
  const { width, height } = pen.canvas
  const small = smallPicture(field, layer, frame)
  pen.clearRect(0, 0, width, height)
  if (small === undefined) return
  pen.save()
  pen.beginPath()
  const [left, , , top] = reachOf(field)
  for (const [x0, y0, x1, y1] of covers) {
    pen.rect(PX_PER_MM * (x0 - left), PX_PER_MM * (top - y1), PX_PER_MM * (x1 - x0), PX_PER_MM * (y1 - y0))
  }
  pen.clip()
  pen.imageSmoothingQuality = 'high'
  pen.drawImage(small, 0, 0, width, height)
  pen.restore()
}

function smallPicture(field: Field, layer: FieldLayer, frame: number): HTMLCanvasElement | undefined {
  const [columns, rows] = [field.x_mm.length, field.y_mm.length]
  const values = layer.frames[frame]
  const small = document.createElement('canvas')
  small.width = columns
  small.height = rows
  const pen = small.getContext('2d')
  if (pen === null || values === undefined) return undefined
  const image = pen.createImageData(columns, rows)
  const span = Math.max(1, field.highest_dC - field.lowest_dC)
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const from = layer.nearest[(rows - 1 - row) * columns + column] ?? 0
      const colour = heatColour(((values[from] ?? 0) - field.lowest_dC) / span)
      image.data.set([...colour, 255], 4 * (row * columns + column))
    }
  }
  pen.putImageData(image, 0, 0)
  return small
}
