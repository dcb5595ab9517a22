// The zone as it is set up: pads and lettered sensors over the method's drawing; what is off is an outline.
import type { JSX } from 'preact'
import type { DrawingMap, SensorDoc, ZoneDoc } from '../../core/method.ts'
import { type Box, type PadAt, type SensorAt, setupOf } from './setup_picture_geometry.ts'
import './setup_picture.css'

/** `down`: turned down; `now`: the one that the run calls for. */
export type PadLook = 'on' | 'down' | 'lifted' | 'now'

type SetupProps = {
  zone: ZoneDoc
  map: DrawingMap | undefined
  /** Address of the drawing; empty while it is read, or without one. */
  src: string
  pads?: ReadonlyMap<string, PadLook>
  label: string
}

export function SetupPicture({ zone, map, src, pads, label }: SetupProps): JSX.Element {
  const { view, pads: placed, sensors, drawn } = setupOf(zone, map)
  const unit = Math.max(view.w, view.h) / 100
  const letter = Math.min(7 * unit, ...placed.map(({ box }) => 0.9 * Math.min(box.w, box.h)))
  return (
    <figure class="setup" role="img" aria-label={label} style={{ aspectRatio: `${view.w} / ${view.h}` }}>
      {drawn && src !== '' && map !== undefined && <Drawing src={src} size={map.size} view={view} />}
      <svg viewBox={`${view.x} ${view.y} ${view.w} ${view.h}`} aria-hidden="true">
        {placed.map((pad) => (
          <Pad key={pad.id} pad={pad} look={pads?.get(pad.id) ?? 'on'} unit={unit} letter={letter} />
        ))}
        {sensors.map((at) => (
          <Sensor
            key={at.id}
            at={at}
            sensor={zone.sensors.find((one) => one.id === at.id)}
            unit={unit}
            flat={view.w > view.h}
          />
        ))}
      </svg>
    </figure>
  )
}

function Drawing({ src, size: [w, h], view }: { src: string; size: readonly [number, number]; view: Box }) {
  return (
    <img
      src={src}
      alt=""
      draggable={false}
      style={{
        width: `${(100 * w) / view.w}%`,
        left: `${(-100 * view.x) / view.w}%`,
        top: `${(-100 * view.y) / view.h}%`,
        height: `${(100 * h) / view.h}%`,
      }}
    />
  )
}

type PadProps = { pad: PadAt; look: PadLook; unit: number; letter: number }

function Pad({ pad: { id, box }, look, unit, letter }: PadProps): JSX.Element {
  const [x, y] = [box.x + box.w / 2, box.y + box.h / 2]
  return (
    <g class={`setup-pad is-${look}`} stroke-width={unit * 0.7}>
      <rect {...{ x: box.x, y: box.y, width: box.w, height: box.h }} />
      {look === 'down' && <path d={`M${box.x} ${y}H${box.x + box.w}V${box.y + box.h}H${box.x}z`} />}
      <text x={x} y={y} font-size={letter} dy="0.36em">
        {id}
      </text>
    </g>
  )
}

/** `flat`: pads lie side by side, so that a bond sensor's letter has room below it. */
type SensorProps = { at: SensorAt; sensor: SensorDoc | undefined; unit: number; flat: boolean }

/** Round on the bond, square on metal, a diamond on the neighbour. */
function Sensor({ at: { id, x, y }, sensor, unit, flat }: SensorProps): JSX.Element {
  const r = 2.1 * unit
  const of = sensor?.of ?? 'bond'
  const letter = id.split('_').at(-1)
  const below = flat && of === 'bond'
  return (
    <g class="setup-sensor" stroke-width={unit * 0.7}>
      {of === 'bond' && <circle cx={x} cy={y} r={r} />}
      {of === 'metal' && <rect x={x - r} y={y - r} width={2 * r} height={2 * r} />}
      {of === 'neighbour' && (
        <path d={`M${x} ${y - 1.3 * r}L${x + 1.3 * r} ${y}L${x} ${y + 1.3 * r}L${x - 1.3 * r} ${y}z`} />
      )}
      <text
        x={below ? x : x + 1.8 * r}
        y={below ? y + 2.6 * r : y}
        text-anchor={below ? 'middle' : 'start'}
        font-size={5 * unit}
        dy="0.36em"
      >
        {letter}
      </text>
    </g>
  )
}
