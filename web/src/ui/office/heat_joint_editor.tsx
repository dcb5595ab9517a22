// The joint to scale with what can be moved on it: by dragging, by arrow keys, or by the figures beside it.
import type { JSX, TargetedKeyboardEvent, TargetedPointerEvent } from 'preact'
import { useRef, useState } from 'preact/hooks'
import type { Json } from '../../core/canonical.ts'
import type { Joint, Point } from '../../core/views/office_heat_document.ts'
import {
  type Extent,
  extentOf,
  moved,
  nearestPad,
  placeOf,
  type Thing,
  thingAt,
} from '../../core/views/office_heat_place.ts'
import { editing as words } from '../words/en_heat_form.ts'
import { mm } from '../words/en_heat_office.ts'
import { picture } from '../words/en_heat_plan.ts'
import { HeatJoint } from './heat_joint.tsx'
import { isSame, JointThings, Signs, THING_KINDS } from './heat_things.tsx'

type EditorProps = {
  document: Json
  /** The document as it is drawn. */
  joint: Joint
  chosen: Thing | undefined
  onChoose: (thing: Thing) => void
  onMove: (document: Json, tag: string) => void
}

const STEP_MM = 1
const LONG_STEP_MM = 10
/** A thumb's half width. */
const REACH_PX = 22
const ARROWS: { readonly [key: string]: Point } = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
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

export function HeatJointEditor(props: EditorProps): JSX.Element {
  const { joint, chosen } = props
  const [held, setHeld] = useState<Extent>()
  const extent = held ?? extentOf(joint)
  const drag = useDrag({ ...props, extent, onHold: setHeld })
  return (
    <div class="o-stack">
      <p class="o-note">
        {picture.heatedSide} {words.jointHelp}
      </p>
      {/* The keys below move the same things. */}
      <div class="hz-hand" {...drag}>
        <HeatJoint joint={joint} extent={extent}>
          <JointThings joint={joint} extent={extent} chosen={chosen} />
        </HeatJoint>
      </div>
      <Signs />
      <ThingKeys {...props} />
      <p role="status">{chosen && `${thingName(joint, chosen)}: ${thingPlace(joint, chosen)}.`}</p>
    </div>
  )
}

/** Each thing as a key of its own: it is chosen by it, and moved by the arrow keys while it has the focus. */
function ThingKeys({ joint, chosen, onChoose, onMove, document }: EditorProps): JSX.Element {
  const things = THING_KINDS.flatMap((kind) => joint[kind].map((_, number): Thing => ({ kind, number })))
  const onKeyDown = (thing: Thing, event: TargetedKeyboardEvent<HTMLButtonElement>): void => {
    const way = ARROWS[event.key]
    if (way === undefined) return
    event.preventDefault()
    onChoose(thing)
    const by = event.shiftKey ? LONG_STEP_MM : STEP_MM
    onMove(moved(document, thing, [way[0] * by, way[1] * by]), `keys ${nameOf(thing)}`)
  }
  return (
    <fieldset class="hz-keys" aria-label={words.things}>
      {things.map((thing) => (
        <button
          key={nameOf(thing)}
          type="button"
          class="key key-plain"
          aria-label={words.moves(thingName(joint, thing), thingPlace(joint, thing))}
          aria-pressed={isSame(chosen, thing)}
          onClick={() => onChoose(thing)}
          onKeyDown={(event) => onKeyDown(thing, event)}
        >
          <span>{thingName(joint, thing)}</span>
        </button>
      ))}
    </fieldset>
  )
}

type DragProps = EditorProps & { extent: Extent; onHold: (extent: Extent | undefined) => void }
type Begun = {
  readonly thing: Thing
  readonly from: Json
  readonly at: Point
  readonly mmPerPx: number
  readonly tag: string
}

/** The picture stands still while something is dragged over it; all of one drag is one step back. */
function useDrag({ document, joint, extent, chosen, onChoose, onMove, onHold }: DragProps) {
  const begun = useRef<Begun | undefined>(undefined)
  const drags = useRef(0)
  const end = (): void => {
    begun.current = undefined
    onHold(undefined)
  }
  const begin = (event: TargetedPointerEvent<HTMLDivElement>): void => {
    const { left, top, width, height } = event.currentTarget.getBoundingClientRect()
    const mmPerPx = (extent.x1 - extent.x0) / width
    const place = placeOf(extent, [(event.clientX - left) / width, (event.clientY - top) / height])
    const thing = thingAt(joint, place, REACH_PX * mmPerPx, chosen)
    if (event.button !== 0 || thing === undefined) return
    event.preventDefault()
    event.currentTarget.setPointerCapture(event.pointerId)
    drags.current += 1
    const tag = `drag ${drags.current}`
    begun.current = { thing, from: document, at: [event.clientX, event.clientY], mmPerPx, tag }
    onChoose(thing)
    onHold(extent)
  }
  const move = (event: TargetedPointerEvent<HTMLDivElement>): void => {
    const { current } = begun
    if (current === undefined) return
    const { at, mmPerPx, from, thing, tag } = current
    const by: Point = [(event.clientX - at[0]) * mmPerPx, (at[1] - event.clientY) * mmPerPx]
    if (by[0] !== 0 || by[1] !== 0) onMove(moved(from, thing, by), tag)
  }
  return { onPointerDown: begin, onPointerMove: move, onPointerUp: end, onPointerCancel: end }
}
