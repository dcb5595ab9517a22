// The joint to scale with what can be moved on it: by dragging, by arrow keys, or by the figures beside it.
import type { ButtonHTMLAttributes, JSX, TargetedKeyboardEvent, TargetedPointerEvent } from 'preact'
import { useRef, useState } from 'preact/hooks'
import type { Json } from '../../core/canonical.ts'
import { canBeDrawn, type Joint, jointOf, type Point } from '../../core/views/office_heat_document.ts'
import { type Extent, extentOf, moved, nearestPad, type Thing } from '../../core/views/office_heat_place.ts'
import { mm, picture, editing as words } from '../words/en_heat_office.ts'
import { boxed, HeatJoint, nameClass, placed, Sign, Signs, thingClass } from './heat_joint.tsx'

type EditorProps = {
  document: Json
  chosen: Thing | undefined
  onChoose: (thing: Thing) => void
  onMove: (document: Json, tag: string) => void
}

const STEP_MM = 1
const LONG_STEP_MM = 10
const ARROWS: { readonly [key: string]: Point } = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
}

export function isSame(one: Thing | undefined, two: Thing): boolean {
  return one?.kind === two.kind && one.number === two.number
}

const nameOf = (thing: Thing): string => `${thing.kind} ${thing.number}`

export function thingName(joint: Joint, { kind, number }: Thing): string {
  const found = joint[kind][number]
  const shown = kind === 'neighbours' ? joint.neighbours[number]?.name || found?.id : found?.id
  return words.thing[kind](shown ?? '')
}

/** Where it lies, and how far from the pads it is. */
export function thingPlace(joint: Joint, { kind, number }: Thing): string {
  if (kind === 'pads') {
    const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = joint.pads[number]?.box ?? []
    return words.boxAt(mm(x0), mm(x1), mm(y0), mm(y1))
  }
  const place = joint[kind][number]?.at ?? [0, 0]
  const near = nearestPad(joint, place)
  const pad = near && (near.on ? words.onPad : words.besidePad)
  const beside =
    near && pad ? [near.on ? pad(near.pad, mm(near.away_mm)) : pad(mm(near.away_mm), near.pad)] : []
  return [words.pointAt(mm(place[0]), mm(place[1])), ...beside].join(', ')
}

export function HeatJointEditor({ document, chosen, onChoose, onMove }: EditorProps): JSX.Element {
  const joint = jointOf(document)
  const [held, setHeld] = useState<Extent>()
  const extent = held ?? extentOf(joint)
  const drag = useDrag({ document, extent, onChoose, onMove, onHold: setHeld })
  const onKeyDown = (thing: Thing, event: TargetedKeyboardEvent<HTMLButtonElement>): void => {
    const way = ARROWS[event.key]
    if (way === undefined) return
    event.preventDefault()
    const by = event.shiftKey ? LONG_STEP_MM : STEP_MM
    onMove(moved(document, thing, [way[0] * by, way[1] * by]), `keys ${nameOf(thing)}`)
  }
  const handle = (thing: Thing) => ({
    type: 'button' as const,
    'aria-label': words.moves(thingName(joint, thing), thingPlace(joint, thing)),
    'aria-pressed': isSame(chosen, thing),
    onClick: () => onChoose(thing),
    onKeyDown: (event: TargetedKeyboardEvent<HTMLButtonElement>) => onKeyDown(thing, event),
    ...drag(thing),
  })
  return (
    <div class="o-stack">
      <p class="o-note">
        {picture.heatedSide} {words.jointHelp}
      </p>
      <HeatJoint joint={joint} extent={extent}>
        <Handles joint={joint} extent={extent} handle={handle} />
      </HeatJoint>
      <Signs />
      <p role="status">{chosen && `${thingName(joint, chosen)}: ${thingPlace(joint, chosen)}.`}</p>
    </div>
  )
}

type HandlesProps = {
  joint: Joint
  extent: Extent
  handle: (thing: Thing) => ButtonHTMLAttributes<HTMLButtonElement>
}

function Handles({ joint, extent, handle }: HandlesProps): JSX.Element {
  return (
    <>
      {joint.pads.map(
        (pad, number) =>
          canBeDrawn(pad.box) && (
            <button
              key={`pad ${number}`}
              class="hz-pad"
              style={boxed(extent, pad.box)}
              {...handle({ kind: 'pads', number })}
            >
              <span class="hz-pad-id">{pad.id}</span>
            </button>
          ),
      )}
      {joint.neighbours.map(
        (one, number) =>
          canBeDrawn(one.at) && (
            <button
              key={`neighbour ${number}`}
              class={thingClass(extent, one.at)}
              style={placed(extent, one.at)}
              {...handle({ kind: 'neighbours', number })}
            >
              <Sign kind="neighbour" />
              <span class={nameClass(joint, one.at)}>{one.name || one.id}</span>
            </button>
          ),
      )}
      {joint.sensors.map(
        (sensor, number) =>
          canBeDrawn(sensor.at) && (
            <button
              key={`sensor ${number}`}
              class="hz-thing"
              style={placed(extent, sensor.at)}
              {...handle({ kind: 'sensors', number })}
            >
              <Sign kind={sensor.layer === joint.bond ? 'bond' : 'metal'} />
              {sensor.id}
            </button>
          ),
      )}
    </>
  )
}

type DragProps = {
  document: Json
  extent: Extent
  onChoose: (thing: Thing) => void
  onMove: (document: Json, tag: string) => void
  onHold: (extent: Extent | undefined) => void
}
type Begun = { readonly from: Json; readonly at: Point; readonly mmPerPx: number; readonly tag: string }

/** The picture stands still while something is dragged over it; all of one drag is one step back. */
function useDrag({ document, extent, onChoose, onMove, onHold }: DragProps) {
  const begun = useRef<Begun | undefined>(undefined)
  const drags = useRef(0)
  const end = (): void => {
    begun.current = undefined
    onHold(undefined)
  }
  return (thing: Thing) => ({
    onPointerDown: (event: TargetedPointerEvent<HTMLButtonElement>) => {
      if (event.button !== 0) return
      const width = event.currentTarget.parentElement?.clientWidth ?? 1
      drags.current += 1
      event.currentTarget.setPointerCapture(event.pointerId)
      begun.current = {
        from: document,
        at: [event.clientX, event.clientY],
        mmPerPx: (extent.x1 - extent.x0) / width,
        tag: `drag ${drags.current}`,
      }
      onChoose(thing)
      onHold(extent)
    },
    onPointerMove: (event: TargetedPointerEvent<HTMLButtonElement>) => {
      const { current } = begun
      if (current === undefined) return
      const by: Point = [
        (event.clientX - current.at[0]) * current.mmPerPx,
        (current.at[1] - event.clientY) * current.mmPerPx,
      ]
      if (by[0] !== 0 || by[1] !== 0) onMove(moved(current.from, thing, by), current.tag)
    },
    onPointerUp: end,
    onPointerCancel: end,
  })
}
