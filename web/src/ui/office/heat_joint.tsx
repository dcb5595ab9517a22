// The joint to scale, seen from the heated side: layers, ruler, and what lies on it.
import type { ComponentChildren, CSSProperties, JSX } from 'preact'
import { useId } from 'preact/hooks'
import { type Box, canBeDrawn, type Joint, type Point } from '../../core/views/office_heat_document.ts'
import { type Extent, extentOf, rulerMarks_mm, shareOf } from '../../core/views/office_heat_place.ts'
import { picture as words } from '../words/en_heat_office.ts'
import './office_heat.css'

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
        <Layers joint={joint} toPicture={toPicture} plain={under === undefined} />
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

const LABELS_TURN = 0.78

/** A label that would leave the picture stands on the other side of its sign. */
export function thingClass(extent: Extent, place: Point): string {
  return shareOf(extent, place)[0] > LABELS_TURN ? 'hz-thing is-left' : 'hz-thing'
}

const SAME_PLACE_MM = 6

/** Where a sensor sits on the neighbour itself, the sensor's letter comes first. */
export function nameClass(joint: Joint, place: Point): string {
  const shares = joint.sensors.some(
    ({ at }) => Math.hypot(at[0] - place[0], at[1] - place[1]) < SAME_PLACE_MM,
  )
  return shares ? 'hz-name is-second' : 'hz-name'
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

function Layers({ joint, toPicture, plain }: DrawProps & { plain: boolean }): JSX.Element {
  const hatch = useId()
  const { size, on, layers, profile } = joint
  const reach: Box = [-on.x_low, -on.y_low, size[0] + on.x_high, size[1] + on.y_high]
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

/** A sensor is round on the bondline and square elsewhere; a neighbour is a diamond. */
export function Sign({ kind }: { kind: 'bond' | 'metal' | 'neighbour' | 'leads' | 'lags' }): JSX.Element {
  const shapes = {
    bond: 'M2 9a7 7 0 1 0 14 0a7 7 0 1 0 -14 0z',
    metal: 'M2.5 2.5h13v13h-13z',
    neighbour: 'M9 1l8 8l-8 8l-8 -8z',
    leads: 'M9 2l8 14h-16z',
    lags: 'M9 16l8 -14h-16z',
  } as const
  return (
    <svg class={`hz-sign is-${kind}`} viewBox="0 0 18 18" aria-hidden="true">
      <path d={shapes[kind]} />
    </svg>
  )
}

/** What each sign stands for. */
export function Signs({ spots = false }: { spots?: boolean }): JSX.Element {
  const kinds = ['bond', 'metal', 'neighbour', ...(spots ? (['leads', 'lags'] as const) : [])] as const
  return (
    <ul class="hz-signs o-note" aria-label={words.signs}>
      {kinds.map((kind) => (
        <li key={kind}>
          <Sign kind={kind} />
          {words.sign[kind]}
        </li>
      ))}
    </ul>
  )
}

type Spots = { readonly leads: Point; readonly lags: Point }

/** Pads, sensors, neighbours and the two spots, as print over the picture. */
export function JointThings(props: { joint: Joint; extent: Extent; spots?: Spots | undefined }): JSX.Element {
  const { joint, extent, spots } = props
  return (
    <span aria-hidden="true">
      {joint.pads
        .filter((pad) => canBeDrawn(pad.box))
        .map((pad) => (
          <span key={pad.id} class="hz-pad" style={boxed(extent, pad.box)}>
            <span class="hz-pad-id">{pad.id}</span>
          </span>
        ))}
      {joint.sensors
        .filter((sensor) => canBeDrawn(sensor.at))
        .map((sensor) => (
          <span key={sensor.id} class="hz-thing" style={placed(extent, sensor.at)}>
            <Sign kind={sensor.layer === joint.bond ? 'bond' : 'metal'} />
            {sensor.id}
          </span>
        ))}
      {joint.neighbours
        .filter((one) => canBeDrawn(one.at))
        .map((one) => (
          <span key={one.id} class={thingClass(extent, one.at)} style={placed(extent, one.at)}>
            <Sign kind="neighbour" />
            <span class={nameClass(joint, one.at)}>{one.name}</span>
          </span>
        ))}
      {spots &&
        (['leads', 'lags'] as const).map((kind) => (
          <span key={kind} class="hz-thing is-spot" style={placed(extent, spots[kind])}>
            <Sign kind={kind} />
            <span class="hz-name">{kind === 'leads' ? words.lead : words.lag}</span>
          </span>
        ))}
    </span>
  )
}
