// The joint to scale, seen from the heated side: layers, ruler, and what lies on it.
import type { ComponentChildren, CSSProperties, JSX } from 'preact'
import { useId } from 'preact/hooks'
import type { Box, Joint, Point } from '../../core/views/office_heat_document.ts'
import { type Extent, extentOf, rulerMarks_mm, shareOf } from '../../core/views/office_heat_place.ts'
import './office_heat_joint.css'

type JointProps = {
  joint: Joint
  /** Held while something is dragged, so that the picture stands still. */
  extent?: Extent | undefined
  /** Drawn over the layers, in mm: what else belongs to the drawing. */
  drawn?: (toPicture: (place: Point) => Point) => ComponentChildren
  /** Under the lines, such as a field of colours. */
  under?: ComponentChildren
  children?: ComponentChildren
}

const MARKS_ALONG = 8
const MARKS_ACROSS = 4

export function HeatJoint({
  joint,
  extent = extentOf(joint),
  drawn,
  under,
  children,
}: JointProps): JSX.Element {
  const [w, h] = [extent.x1 - extent.x0, extent.y1 - extent.y0]
  const toPicture = ([x, y]: Point): Point => [x - extent.x0, extent.y1 - y]
  return (
    <div class="hz-joint" style={{ aspectRatio: `${w} / ${h}` }}>
      {under}
      <svg viewBox={`0 0 ${w} ${h}`} aria-hidden="true">
        <Layers {...{ joint, extent, toPicture }} plain={under === undefined} />
        <Ruler joint={joint} toPicture={toPicture} />
        {drawn?.(toPicture)}
      </svg>
      <RulerWords joint={joint} extent={extent} />
      {children}
    </div>
  )
}

/** Where a place stands on the picture, for what is laid over it. */
export function placed(extent: Extent, place: Point): CSSProperties {
  const [left, top] = shareOf(extent, place)
  return { left: `${100 * left}%`, top: `${100 * top}%` }
}

/** A box on the picture, for what is laid over it. */
export function boxed(extent: Extent, [x0, y0, x1, y1]: Box): CSSProperties {
  const [left, top] = shareOf(extent, [x0, y1])
  const [right, bottom] = shareOf(extent, [x1, y0])
  return {
    left: `${100 * left}%`,
    top: `${100 * top}%`,
    width: `${100 * (right - left)}%`,
    height: `${100 * (bottom - top)}%`,
  }
}

type DrawProps = { joint: Joint; toPicture: (place: Point) => Point }

export function rect([x0, y0, x1, y1]: Box, toPicture: (place: Point) => Point) {
  const [x, y] = toPicture([x0, y1])
  return { x, y, width: Math.max(0, x1 - x0), height: Math.max(0, y1 - y0) }
}

type LayersProps = DrawProps & { extent: Extent; plain: boolean }

function Layers({ joint, extent, toPicture, plain }: LayersProps): JSX.Element {
  const hatch = useId()
  const { size, on, layers, profile } = joint
  const reach: Box = [
    Math.max(-on.x_low, extent.x0),
    Math.max(-on.y_low, extent.y0),
    Math.min(size[0] + on.x_high, extent.x1),
    Math.min(size[1] + on.y_high, extent.y1),
  ]
  return (
    <g class={plain ? 'hz-layers' : 'hz-layers is-bare'}>
      <defs>
        <pattern id={hatch} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path class="hz-hatch" d="M0 0V7" />
        </pattern>
      </defs>
      <rect class="hz-on" {...rect(reach, toPicture)} />
      {layers.map((layer) =>
        layer.covers.map((box) => (
          <rect
            key={`${layer.id} ${box.join()}`}
            class={`hz-layer is-${layer.role}`}
            fill={layer.role === 'adhesive' && plain ? `url(#${hatch})` : undefined}
            {...rect(box, toPicture)}
          />
        )),
      )}
      {profile && <rect class="hz-profile" {...rect(profile.box, toPicture)} />}
    </g>
  )
}

function Ruler({ joint: { size }, toPicture }: DrawProps): JSX.Element {
  const [x, y] = toPicture([0, 0])
  const along = rulerMarks_mm(size[0], MARKS_ALONG)
  const across = rulerMarks_mm(size[1], MARKS_ACROSS)
  return (
    <g class="hz-ruler">
      <path d={`M${x} ${y}h${size[0]}${along.map((mm) => `M${x + mm} ${y}v6`).join('')}`} />
      <path d={`M${x} ${y}v${-size[1]}${across.map((mm) => `M${x} ${y - mm}h-6`).join('')}`} />
    </g>
  )
}

function RulerWords({ joint: { size }, extent }: { joint: Joint; extent: Extent }): JSX.Element {
  return (
    <span aria-hidden="true">
      {rulerMarks_mm(size[0], MARKS_ALONG).map((mm) => (
        <span key={`x ${mm}`} class="hz-mark is-along" style={placed(extent, [mm, 0])}>
          {mm}
        </span>
      ))}
      {rulerMarks_mm(size[1], MARKS_ACROSS)
        .slice(1)
        .map((mm) => (
          <span key={`y ${mm}`} class="hz-mark is-across" style={placed(extent, [0, mm])}>
            {mm}
          </span>
        ))}
    </span>
  )
}
