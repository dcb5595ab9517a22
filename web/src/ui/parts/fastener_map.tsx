// The fastener map as it is drawn: the method's drawing as a picture, rivets and numbers laid over it.
import type { ComponentChildren, JSX } from 'preact'
import type { Beside } from '../../core/views/hole_neighbours.ts'
import type { HoleWord } from '../../core/views/holes_view.ts'
import type { Place, Side, Size } from './fastener_map_geometry.ts'
import { HoleMark } from './hole_mark.tsx'
import { RivetMark, type RivetName } from './rivet_mark.tsx'

/** A position as the map draws it. */
export type MapRivet = {
  readonly id: string
  readonly shape: RivetName
  /** Position, state and marks, in words. */
  readonly name: string
  /** Nothing is asked of it here. */
  readonly soft: boolean
  /** It stands beside a damaged hole, or beside one that goes up a size. */
  readonly beside: boolean
  /** What its hole allows; undefined where no hole is measured. */
  readonly hole: HoleWord | undefined
  /** Which rivet of the position stands there, where it is not the first one. */
  readonly nth: number
}

type SheetProps = { src: string; size: Size; class?: string; width_px?: number; children: ComponentChildren }

/** The drawing under what lies on it. A picture: nothing of a foreign file enters the page. */
export function MapSheet({ src, size, class: name = '', width_px, children }: SheetProps): JSX.Element {
  return (
    <div
      class={`map-sheet ${name}`}
      style={{ aspectRatio: `${size.w} / ${size.h}`, ...(width_px && { maxWidth: `${width_px}px` }) }}
    >
      {src !== '' && <img class="map-drawing" src={src} alt="" draggable={false} />}
      {children}
    </div>
  )
}

export type MarksProps = {
  rivets: readonly MapRivet[]
  places: readonly Place[]
  sides: ReadonlyMap<string, Side>
  size: Size
  picked?: string
  /** Role and id of each rivet: options of a listbox, or items of a list. */
  as: 'option' | 'item'
}

/** The rivets at their places; a position that the drawing lacks is left to the list. */
export function MapRivets({ rivets, places, sides, size, picked, as }: MarksProps): JSX.Element {
  const Tag = as === 'option' ? 'div' : 'li'
  const at = new Map(places.map((place) => [place.id, place]))
  return (
    <>
      {rivets.map((rivet) => {
        const place = at.get(rivet.id)
        if (place === undefined) return null
        const isPicked = rivet.id === picked
        return (
          <Tag
            key={rivet.id}
            {...(as === 'option' && { id: optionId(rivet.id), role: 'option', 'aria-selected': isPicked })}
            class={`map-rivet place-${rivet.shape}${rivet.soft ? ' is-soft' : ''}${isPicked ? ' is-picked' : ''}${rivet.beside ? ' is-beside' : ''}`}
            style={{ left: percent(place.x, size.w), top: percent(place.y, size.h) }}
          >
            <span class="unseen">{rivet.name}</span>
            <RivetMark name={rivet.shape} />
            {rivet.hole && <HoleMark word={rivet.hole} />}
            <span aria-hidden="true" class={`map-number at-${sides.get(rivet.id) ?? 'above'}`}>
              {rivet.id}
              {rivet.nth > 1 && <sup>{rivet.nth}</sup>}
            </span>
          </Tag>
        )
      })}
    </>
  )
}

/** Lines from a damaged or larger hole to what stands beside it; the same is said of each position in words. */
export function MapBeside(props: {
  beside: readonly Beside[]
  places: readonly Place[]
  size: Size
}): JSX.Element | null {
  const { beside, places, size } = props
  if (beside.length === 0) return null
  const at = new Map(places.map((place) => [place.id, place]))
  return (
    <svg class="map-beside" viewBox={`0 0 ${size.w} ${size.h}`} aria-hidden="true">
      {beside.flatMap(({ hole, neighbours }) =>
        neighbours.map((other) => {
          const [from, to] = [at.get(hole), at.get(other)]
          return from && to && <line key={`${hole} ${other}`} x1={from.x} y1={from.y} x2={to.x} y2={to.y} />
        }),
      )}
    </svg>
  )
}

export function optionId(position: string): string {
  return `position-${position}`
}

export function percent(part: number, whole: number): string {
  return `${(100 * part) / whole}%`
}
