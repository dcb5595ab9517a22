// The window on the fastener map: how far it is zoomed, where it stands, and the fingers that change both.
import type { RefObject } from 'preact'
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { DrawingMap } from '../../core/method.ts'
import {
  centred,
  clamp,
  distance,
  type Point,
  type Size,
  scrollAbout,
  zoomRange,
} from '../parts/fastener_map_geometry.ts'

export type MapWindow = {
  readonly ref: RefObject<HTMLDivElement | null>
  /** Width of the window in px; 0 before it was measured. */
  readonly width: number
  readonly zoom: number
  /** By a factor, about the picked position or about a point in the window. */
  readonly zoomBy: (by: number, about?: Point) => void
}

type Asked = { map: DrawingMap | undefined; picked: string }

export function useMapWindow({ map, picked }: Asked): MapWindow {
  const ref = useRef<HTMLDivElement>(null)
  const { w: width, h: height } = useSize(ref)
  const [chosen, setChosen] = useState<number>()
  const size = { w: map?.size[0] ?? 1, h: map?.size[1] ?? 1 }
  const range = map && width > 0 ? zoomRange(map.places, size, { w: width, h: height }) : NO_RANGE
  const zoom = clamp(chosen ?? range.first, range.min, range.max)
  const about = useRef<{ at: Point; by: number } | undefined>(undefined)
  const zoomBy = (by: number, at?: Point) => {
    const next = clamp(zoom * by, range.min, range.max)
    if (at !== undefined) about.current = { at, by: next / zoom }
    setChosen(next)
  }
  useLayoutEffect(() => {
    const shown = ref.current
    if (shown === null) return
    const kept = about.current
    about.current = undefined
    if (kept === undefined) return centre(shown, map, picked, 'instant')
    const to = scrollAbout({ x: shown.scrollLeft, y: shown.scrollTop }, kept.at, kept.by)
    shown.scrollTo({ left: to.x, top: to.y, behavior: 'instant' })
  }, [zoom, width])
  useEffect(() => {
    if (ref.current) centre(ref.current, map, picked, isStill() ? 'instant' : 'smooth')
  }, [picked])
  useFingers(ref, zoomBy)
  return { ref, width, zoom, zoomBy }
}

function isStill(): boolean {
  return matchMedia('(prefers-reduced-motion: reduce)').matches
}

const NO_RANGE = { min: 1, first: 1, max: 3 }
const UNMEASURED: Size = { w: 0, h: 0 }

/** Width inside, and the height that the window may grow to. */
function useSize(ref: RefObject<HTMLDivElement | null>): Size {
  const [size, setSize] = useState(UNMEASURED)
  useLayoutEffect(() => {
    const shown = ref.current
    if (shown === null) return
    const measure = () => {
      const now = { w: shown.clientWidth, h: Number.parseFloat(getComputedStyle(shown).maxHeight) || 0 }
      setSize((before) => (before.w === now.w && before.h === now.h ? before : now))
    }
    measure()
    const watch = new ResizeObserver(measure)
    watch.observe(shown)
    return () => watch.disconnect()
  }, [ref])
  return size
}

/** The picked position in the middle of the window, as far as the drawing reaches. */
function centre(
  shown: HTMLElement,
  map: DrawingMap | undefined,
  picked: string,
  behavior: ScrollBehavior,
): void {
  const place = map?.places.find((one) => one.id === picked)
  if (map === undefined || place === undefined) return
  const width = shown.firstElementChild?.clientWidth ?? 0
  const scale = width / map.size[0]
  const content = { w: width, h: map.size[1] * scale }
  const to = centred(
    { x: place.x * scale, y: place.y * scale },
    { w: shown.clientWidth, h: shown.clientHeight },
    content,
  )
  shown.scrollTo({ left: to.x, top: to.y, behavior })
}

/** Two fingers zoom, and so does the wheel over a map that has the focus or with the control key held. */
function useFingers(ref: RefObject<HTMLDivElement | null>, zoomBy: MapWindow['zoomBy']): void {
  const latest = useRef(zoomBy)
  latest.current = zoomBy
  useEffect(() => {
    const shown = ref.current
    if (shown === null) return
    let apart = 0
    const pair = (event: TouchEvent): readonly [Point, Point] | undefined => {
      const [one, other] = event.touches
      return event.touches.length === 2 && one && other
        ? [within(shown, one), within(shown, other)]
        : undefined
    }
    const start = (event: TouchEvent) => {
      const two = pair(event)
      apart = two ? distance(...two) : 0
    }
    const move = (event: TouchEvent) => {
      const two = pair(event)
      if (two === undefined || apart === 0) return
      event.preventDefault()
      const now = distance(...two)
      latest.current(now / apart, { x: (two[0].x + two[1].x) / 2, y: (two[0].y + two[1].y) / 2 })
      apart = now
    }
    const wheel = (event: WheelEvent) => {
      const isMeant = event.ctrlKey || shown.contains(document.activeElement)
      if (!isMeant) return
      event.preventDefault()
      latest.current(Math.exp(-event.deltaY / 400), within(shown, event))
    }
    shown.addEventListener('touchstart', start, { passive: true })
    shown.addEventListener('touchmove', move, { passive: false })
    shown.addEventListener('wheel', wheel, { passive: false })
    return () => {
      shown.removeEventListener('touchstart', start)
      shown.removeEventListener('touchmove', move)
      shown.removeEventListener('wheel', wheel)
    }
  }, [ref])
}

/** A point of the page as one of the window. */
function within(shown: HTMLElement, at: { clientX: number; clientY: number }): Point {
  const box = shown.getBoundingClientRect()
  return { x: at.clientX - box.left, y: at.clientY - box.top }
}
