// What lies on the joint: pads, sensors, neighbours, the hottest and the coldest spot, each with its sign.
import type { JSX } from 'preact'
import { canBeDrawn, type Joint, type Point } from '../../core/views/office_heat_document.ts'
import { type Extent, shareOf, type Thing } from '../../core/views/office_heat_place.ts'
import { picture as words } from '../words/en_heat_plan.ts'
import { boxed, placed } from './heat_joint.tsx'

/** What can be chosen and moved, in the order in which it is listed. */
export const THING_KINDS = ['pads', 'sensors', 'neighbours'] as const satisfies readonly Thing['kind'][]

export function isSame(one: Thing | undefined, two: Thing): boolean {
  return one?.kind === two.kind && one.number === two.number
}

const LABELS_TURN = 0.78

/** A label that would leave the picture stands on the other side of its sign. */
function thingClass(extent: Extent, place: Point): string {
  return shareOf(extent, place)[0] > LABELS_TURN ? 'hz-thing is-left' : 'hz-thing'
}

const SAME_PLACE_MM = 6

/** Where a sensor sits on the neighbour itself, the sensor's letter comes first. */
function nameClass(joint: Joint, place: Point): string {
  const shares = joint.sensors.some(
    ({ at }) => Math.hypot(at[0] - place[0], at[1] - place[1]) < SAME_PLACE_MM,
  )
  return shares ? 'hz-name is-second' : 'hz-name'
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

type ThingsProps = {
  joint: Joint
  extent: Extent
  spots?: Spots | undefined
  chosen?: Thing | undefined
}

/** Pads, sensors, neighbours and the two spots, as print over the picture. */
export function JointThings({ joint, extent, spots, chosen }: ThingsProps): JSX.Element {
  const mark = (kind: Thing['kind'], number: number): string =>
    isSame(chosen, { kind, number }) ? ' is-chosen' : ''
  return (
    <span aria-hidden="true">
      {joint.pads.map(
        (pad, number) =>
          canBeDrawn(pad.box) && (
            <span key={pad.id} class={`hz-pad${mark('pads', number)}`} style={boxed(extent, pad.box)}>
              <span class="hz-pad-id">{pad.id}</span>
            </span>
          ),
      )}
      {joint.sensors.map(
        (sensor, number) =>
          canBeDrawn(sensor.at) && (
            <span
              key={sensor.id}
              class={`hz-thing${mark('sensors', number)}`}
              style={placed(extent, sensor.at)}
            >
              <Sign kind={sensor.layer === joint.bond ? 'bond' : 'metal'} />
              {sensor.id}
            </span>
          ),
      )}
      {joint.neighbours.map(
        (one, number) =>
          canBeDrawn(one.at) && (
            <span
              key={one.id}
              class={`${thingClass(extent, one.at)}${mark('neighbours', number)}`}
              style={placed(extent, one.at)}
            >
              <Sign kind="neighbour" />
              <span class={nameClass(joint, one.at)}>{one.name || one.id}</span>
            </span>
          ),
      )}
      {spots &&
        (['leads', 'lags'] as const).map((kind) => (
          <span key={kind} class="hz-thing is-spot" style={placed(extent, spots[kind])}>
            <Sign kind={kind} />
          </span>
        ))}
    </span>
  )
}
