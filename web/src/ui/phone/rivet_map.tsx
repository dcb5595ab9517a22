// The fastener map to the hand: tap, long press, keys; a listbox whose options are the positions.
import type { ComponentChildren, JSX } from 'preact'
import { useMemo, useRef } from 'preact/hooks'
import type { Beside } from '../../core/views/hole_neighbours.ts'
import type { MapDrawing } from '../../core/views/map_view.ts'
import { MapBeside, type MapRivet, MapRivets, MapSheet, optionId, percent } from '../parts/fastener_map.tsx'
import {
  aperture,
  type Box,
  markSize,
  nearest,
  numberAt,
  type Place,
  type Point,
  scaled,
  sidesOfNumbers,
  spacing,
} from '../parts/fastener_map_geometry.ts'
import { longPress, type MapReports, reportKey, reportTap } from '../parts/fastener_map_press.ts'
import '../parts/fastener_map.css'
import type { MapWindow } from './rivet_map_window.ts'

type MapProps = MapReports & {
  rivets: readonly MapRivet[]
  beside: readonly Beside[]
  picked: string
  name: string
  isDeaf: () => boolean
}

const TIMERS = {
  set: (call: () => void, after_ms: number) => setTimeout(call, after_ms),
  clear: (timer: unknown) => clearTimeout(timer as number),
}

type DrawnProps = MapProps & {
  drawing: MapDrawing
  src: string
  shown: MapWindow
  /** Where `inside` stands, if it has room in the drawing. */
  room: Room | undefined
  inside: ComponentChildren
}

export function RivetMap(props: DrawnProps): JSX.Element {
  const { drawing, src, shown, rivets, picked, room } = props
  const { map } = drawing
  const [w, h] = map.size
  const scale = (shown.width * shown.zoom) / w
  const places = useMemo(
    () => map.places.filter((place) => rivets.some((one) => one.id === place.id)),
    [map, rivets],
  )
  const sides = useMemo(
    () => sidesOfNumbers(scaled(places, scale), { w: w * scale, h: h * scale }),
    [places, scale, w, h],
  )
  return (
    <div class="map-window" ref={shown.ref}>
      <div class="map-zoomed" style={{ width: `${100 * shown.zoom}%` }}>
        <MapSheet src={src} size={{ w, h }}>
          <Touch {...props} places={places}>
            <div class="map-all" style={{ '--map-mark': `${markSize(spacing(places) * scale)}px` }}>
              <MapBeside beside={props.beside} places={places} size={{ w, h }} />
              <MapRivets
                rivets={rivets}
                places={places}
                sides={sides}
                size={{ w, h }}
                picked={picked}
                as="option"
              />
            </div>
          </Touch>
          {room && (
            <div
              class="map-aperture"
              style={{
                left: percent(room.x, w),
                top: percent(room.y, h),
                width: percent(room.w, w),
                height: percent(room.h, h),
              }}
            >
              {props.inside}
            </div>
          )}
        </MapSheet>
      </div>
    </div>
  )
}

/** From a position to what may stand beside it: its rivet, its number, the part's own edge. */
const MARGIN_PX = 46
const DOT_PX = 16
const NUMBER_PX = { w: 52, h: 34 }

/** The drawing's aperture in its own units, and how large it is now. */
export type Room = Box & { readonly w_px: number; readonly h_px: number }

export function roomOf(map: MapDrawing['map'], { width, zoom }: MapWindow): Room | undefined {
  const [w, h] = map.size
  const scale = (width * zoom) / w
  if (scale === 0) return undefined
  const places = scaled(map.places, scale)
  const sides = sidesOfNumbers(places, { w: w * scale, h: h * scale })
  const numbers = places.map((place) => {
    const at = numberAt(place, sides.get(place.id) ?? 'above')
    return { x: at.x - NUMBER_PX.w / 2, y: at.y - NUMBER_PX.h / 2, ...NUMBER_PX }
  })
  const pads = map.pads.map((pad) => ({
    x: pad.x * scale,
    y: pad.y * scale,
    w: pad.w * scale,
    h: pad.h * scale,
  }))
  const dots = map.sensors.map((dot) => ({
    x: dot.x * scale - DOT_PX / 2,
    y: dot.y * scale - DOT_PX / 2,
    w: DOT_PX,
    h: DOT_PX,
  }))
  const box = aperture({ w: w * scale, h: h * scale }, places, [...numbers, ...pads, ...dots], MARGIN_PX)
  return { x: box.x / scale, y: box.y / scale, w: box.w / scale, h: box.h / scale, w_px: box.w, h_px: box.h }
}

type TouchProps = MapProps & { places: readonly Place[]; children: ComponentChildren }

/** The surface that is touched: taps by the nearest position, a long press, the system's menu key. */
function Touch(props: TouchProps): JSX.Element {
  const { places, picked, name } = props
  const latest = useRef(props)
  latest.current = props
  const surface = useRef<HTMLDivElement>(null)
  const onScreen = () => [...(surface.current?.querySelectorAll('[role="option"]') ?? [])].map(placeOnScreen)
  const press = useMemo(
    () =>
      longPress((at) => {
        const place = nearest(onScreen(), at)
        if (place) latest.current.onMarks(place.id)
      }, TIMERS),
    [],
  )
  const tap = (event: MouseEvent) => {
    if (press.takesClick()) return
    // A screen reader's press comes to the option itself; a finger's comes to the surface.
    const own = (event.target as Element).closest('[role="option"]')
    if (own) return own.id === optionId(picked) ? props.onMoveOn() : props.onPick(placeOnScreen(own).id)
    const at = pointOf(event)
    reportTap({ places: onScreen(), at, picked, isDeaf: props.isDeaf() }, props)
  }
  const keys = (event: KeyboardEvent) => {
    if (
      reportKey(
        event,
        props.rivets.map((one) => one.id),
        picked,
        props,
      )
    )
      event.preventDefault()
  }
  const menu = (event: MouseEvent) => {
    event.preventDefault()
    if (!press.menu()) return
    const place = event.button === 2 ? nearest(onScreen(), pointOf(event)) : undefined
    props.onMarks(place?.id ?? picked)
  }
  return (
    <div
      ref={surface}
      class="map-touch"
      role="listbox"
      tabIndex={0}
      aria-label={name}
      aria-activedescendant={places.some((one) => one.id === picked) ? optionId(picked) : undefined}
      onClick={tap}
      onContextMenu={menu}
      onKeyDown={keys}
      onPointerDown={(event) => event.button === 0 && press.down(pointOf(event))}
      onPointerMove={(event) => press.move(pointOf(event))}
      onPointerUp={press.end}
      onPointerCancel={press.end}
      onPointerLeave={press.end}
    >
      {props.children}
    </div>
  )
}

function pointOf(event: MouseEvent): Point {
  return { x: event.clientX, y: event.clientY }
}

function placeOnScreen(option: Element): Place {
  const { left, top, width, height } = option.getBoundingClientRect()
  return { id: option.id.slice(optionId('').length), x: left + width / 2, y: top + height / 2 }
}
