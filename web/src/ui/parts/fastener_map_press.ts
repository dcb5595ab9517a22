// What a finger means on the fastener map: a tap picks or moves on, a long press opens the marks.
import { distance, nearest, OWN_PX, type Place, type Point } from './fastener_map_geometry.ts'

export const HOLD_MS = 500
/** A finger that slides farther than this pans. */
const SLIP_PX = 12
/** A glove bounces: what is picked just now is not moved on by the same touch. */
export const BOUNCE_MS = 400

export type Tap = 'pick' | 'move_on' | 'nothing'

/** A tap at `at`, whose nearest position is `hit`. */
export function tapMeans(hit: Place | undefined, at: Point, picked: string, isDeaf: boolean): Tap {
  if (hit === undefined) return 'nothing'
  if (hit.id !== picked) return 'pick'
  return distance(hit, at) <= OWN_PX && !isDeaf ? 'move_on' : 'nothing'
}

type Timers = {
  readonly set: (call: () => void, after_ms: number) => unknown
  readonly clear: (timer: unknown) => void
}

/** Waits for a finger to stay; the tap that ends a long press is no tap. */
export function longPress(onHold: (at: Point) => void, timers: Timers) {
  let down: { at: Point; timer: unknown } | undefined
  let held = false
  const letGo = () => {
    if (down !== undefined) timers.clear(down.timer)
    down = undefined
  }
  return {
    down(at: Point): void {
      letGo()
      held = false
      const timer = timers.set(() => {
        down = undefined
        held = true
        onHold(at)
      }, HOLD_MS)
      down = { at, timer }
    },
    move(at: Point): void {
      if (down !== undefined && distance(down.at, at) > SLIP_PX) letGo()
    },
    end: letGo,
    /** True once for the click that follows a long press. */
    takesClick(): boolean {
      const was = held
      held = false
      return was
    },
    /** The system's own menu key or long press: ours, unless the finger has just opened it. */
    menu(): boolean {
      letGo()
      return !held
    },
  }
}

/** What a key does on the map; arrows follow the numbers. */
export type KeyAct =
  | { readonly is: 'go'; readonly to: 'next' | 'previous' | 'first' | 'last' }
  | { readonly is: 'move_on' | 'marks' }
  | { readonly is: 'zoom'; readonly by: number }

export const ZOOM_STEP = 1.5

const KEY_ACTS: { readonly [key: string]: KeyAct } = {
  ArrowRight: { is: 'go', to: 'next' },
  ArrowDown: { is: 'go', to: 'next' },
  ArrowLeft: { is: 'go', to: 'previous' },
  ArrowUp: { is: 'go', to: 'previous' },
  Home: { is: 'go', to: 'first' },
  End: { is: 'go', to: 'last' },
  Enter: { is: 'move_on' },
  ' ': { is: 'move_on' },
  m: { is: 'marks' },
  M: { is: 'marks' },
  '+': { is: 'zoom', by: ZOOM_STEP },
  '=': { is: 'zoom', by: ZOOM_STEP },
  '-': { is: 'zoom', by: 1 / ZOOM_STEP },
}

type Pressed = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey'>

export function keyAct(event: Pressed): KeyAct | undefined {
  if (event.ctrlKey || event.metaKey || event.altKey) return undefined // the browser's own
  return Object.hasOwn(KEY_ACTS, event.key) ? KEY_ACTS[event.key] : undefined
}

/** Where 'next' and its kin lead: round the numbers in their order. */
export function goTo(
  ids: readonly string[],
  picked: string,
  to: 'next' | 'previous' | 'first' | 'last',
): string {
  const at = ids.indexOf(picked)
  const index = { next: at + 1, previous: at - 1, first: 0, last: ids.length - 1 }[to]
  return ids[(index + ids.length) % ids.length] ?? picked
}

/** What the map reports; it decides nothing. */
export type MapReports = {
  readonly onPick: (position: string) => void
  /** The picked rivet's next state. */
  readonly onMoveOn: () => void
  readonly onMarks: (position: string) => void
  readonly zoomBy: (by: number) => void
}

/** Reports what a key means; false where the map has no meaning for it. */
export function reportKey(event: Pressed, ids: readonly string[], picked: string, to: MapReports): boolean {
  const act = keyAct(event)
  switch (act?.is) {
    case undefined:
      return false
    case 'go':
      to.onPick(goTo(ids, picked, act.to))
      break
    case 'zoom':
      to.zoomBy(act.by)
      break
    case 'move_on':
      to.onMoveOn()
      break
    case 'marks':
      to.onMarks(picked)
  }
  return true
}

export type Tapped = {
  readonly places: readonly Place[]
  readonly at: Point
  readonly picked: string
  /** The picked position was picked just now. */
  readonly isDeaf: boolean
}

/** Reports what a tap means. */
export function reportTap({ places, at, picked, isDeaf }: Tapped, to: MapReports): void {
  const hit = nearest(places, at)
  const means = tapMeans(hit, at, picked, isDeaf)
  if (means === 'pick' && hit) to.onPick(hit.id)
  if (means === 'move_on') to.onMoveOn()
}
