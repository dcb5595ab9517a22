// A planned zone to scale: its bond, pads, sensors, coldest and hottest place, with the widths under it in mm.
import type { JSX } from 'preact'
import type { BoxMm, PlanLayout } from '../../core/live/response_set.ts'
import { stretchesOf } from '../../core/views/plan_layout_view.ts'
import './layout_picture.css'

const BOX = { w: 358, side: 2, top: 6, below: 30 } as const
/** Narrower stretches have no room for their figure. */
const NARROW_PX = 20

type Scale = {
  readonly x: (mm: number) => number
  readonly y: (mm: number) => number
  readonly mm: number
  readonly height: number
}

function scaleOf([width, height]: PlanLayout['size_mm']): Scale {
  const mm = (BOX.w - 2 * BOX.side) / width
  return {
    mm,
    height: BOX.top + height * mm + BOX.below,
    x: (at) => BOX.side + at * mm,
    y: (at) => BOX.top + (height - at) * mm,
  }
}

export function LayoutPicture({ layout, label }: { layout: PlanLayout; label: string }): JSX.Element {
  const scale = scaleOf(layout.size_mm)
  const [width, height] = layout.size_mm
  return (
    <svg class="layout" viewBox={`0 0 ${BOX.w} ${scale.height}`} role="img" aria-label={label}>
      <Box class="layout-zone" box={[0, 0, width, height]} scale={scale} />
      {layout.pads.map(({ id, box_mm }) => (
        <Pad key={id} id={id} box={box_mm} scale={scale} />
      ))}
      {layout.bond.map((box) => (
        <Box key={box.join()} class="layout-bond" box={box} scale={scale} />
      ))}
      <Spot d="M-7 -6h14L0 7z" at={layout.lagging.at_mm} scale={scale} />
      <Spot d="M-7 6h14L0 -7z" at={layout.leading.at_mm} scale={scale} />
      {layout.sensors.map((sensor) => (
        <Sensor key={sensor.id} {...sensor} scale={scale} />
      ))}
      <Widths layout={layout} scale={scale} />
    </svg>
  )
}

function Box({ class: name, box: [x0, y0, x1, y1], scale }: { class: string; box: BoxMm; scale: Scale }) {
  const { x, y, mm } = scale
  return <rect class={name} x={x(x0)} y={y(y1)} width={(x1 - x0) * mm} height={(y1 - y0) * mm} />
}

function Pad({ id, box, scale }: { id: string; box: BoxMm; scale: Scale }): JSX.Element {
  const [x0, , x1, y1] = box
  return (
    <g>
      <Box class="layout-pad" box={box} scale={scale} />
      <text class="layout-name" x={scale.x((x0 + x1) / 2)} y={scale.y(y1) - 5}>
        {id}
      </text>
    </g>
  )
}

type SpotProps = { d: string; at: readonly [x: number, y: number]; scale: Scale }

function Spot({ d, at: [x, y], scale }: SpotProps): JSX.Element {
  return <path class="layout-spot" d={d} transform={`translate(${scale.x(x)} ${scale.y(y)})`} />
}

type SensorProps = { id: string; at_mm: readonly [x: number, y: number]; role: string; scale: Scale }

/** Round on the bond, square on metal, as in the setup picture. */
function Sensor({ id, at_mm: [at_x, at_y], role, scale }: SensorProps): JSX.Element {
  const [x, y] = [scale.x(at_x), scale.y(at_y)]
  const right = x < BOX.w - 24
  return (
    <g class="layout-sensor">
      {role === 'metal' ? (
        <rect x={x - 5} y={y - 5} width={10} height={10} />
      ) : (
        <circle cx={x} cy={y} r={5.5} />
      )}
      <text x={right ? x + 9 : x - 9} y={y + 14} text-anchor={right ? 'start' : 'end'}>
        {id}
      </text>
    </g>
  )
}

function Widths({ layout, scale }: { layout: PlanLayout; scale: Scale }): JSX.Element {
  const { x, height, mm } = scale
  const line = height - BOX.below + 8
  return (
    <g class="layout-widths">
      {stretchesOf(layout).map(({ from, to }) => (
        <g key={from}>
          <path d={`M${x(from)} ${line - 5}v10M${x(from)} ${line}H${x(to)}M${x(to)} ${line - 5}v10`} />
          {(to - from) * mm > NARROW_PX && (
            <text x={x((from + to) / 2)} y={line + 18} text-anchor="middle">
              {Math.round(to - from)}
            </text>
          )}
        </g>
      ))}
    </g>
  )
}
