// The fastener map to be read, not touched: the office's job page and wherever a job is looked at.
import type { JSX } from 'preact'
import { useMemo } from 'preact/hooks'
import type { DrawingMap } from '../../core/method.ts'
import type { Beside } from '../../core/views/hole_neighbours.ts'
import { MapBeside, type MapRivet, MapRivets, MapSheet } from './fastener_map.tsx'
import { markSize, scaled, sidesOfNumbers, spacing } from './fastener_map_geometry.ts'
import './fastener_map.css'

type PictureProps = {
  map: DrawingMap
  /** Address of the drawing. */
  src: string
  rivets: readonly MapRivet[]
  beside?: readonly Beside[]
  name: string
  /** The width that it is drawn for; numbers are placed by it. */
  width_px: number
}

export function FastenerPicture({
  map,
  src,
  rivets,
  beside = [],
  name,
  width_px,
}: PictureProps): JSX.Element {
  const [w, h] = map.size
  const scale = width_px / w
  const sides = useMemo(
    () => sidesOfNumbers(scaled(map.places, scale), { w: w * scale, h: h * scale }),
    [map, scale, w, h],
  )
  return (
    <MapSheet src={src} size={{ w, h }} class="map-picture" width_px={width_px}>
      <MapBeside beside={beside} places={map.places} size={{ w, h }} />
      <ul
        class="map-all"
        aria-label={name}
        style={{ '--map-mark': `${markSize(spacing(map.places) * scale)}px` }}
      >
        <MapRivets rivets={rivets} places={map.places} sides={sides} size={{ w, h }} as="item" />
      </ul>
    </MapSheet>
  )
}
