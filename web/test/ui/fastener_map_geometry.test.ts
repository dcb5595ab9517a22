// The fastener map's geometry: the nearest position, zoom, where numbers and the count stand.
import { describe, expect, it } from 'vitest'
import {
  aperture,
  centred,
  clamp,
  distance,
  markSize,
  nearest,
  type Place,
  scaled,
  scrollAbout,
  sidesOfNumbers,
  spacing,
  zoomRange,
} from '../../src/ui/parts/fastener_map_geometry.ts'
import { PLACES_22, PLACES_40 } from './fixtures/fastener_maps.ts'

const SIZE = { w: 358, h: 460 }
/** A window of a phone 390 px wide, 12 px of paper left and right. */
const WIDTH_PX = 366
const WINDOW = { w: WIDTH_PX, h: 390 }

function places(all: readonly (readonly [string, number, number])[]): readonly Place[] {
  return all.map(([id, x, y]) => ({ id, x, y }))
}

describe('a tap', () => {
  it('takes the nearest position, however far', () => {
    const two = places([
      ['H1', 10, 10],
      ['H2', 110, 10],
    ])
    expect(nearest(two, { x: 59, y: 300 })?.id).toBe('H1')
    expect(nearest(two, { x: 61, y: 300 })?.id).toBe('H2')
    expect(nearest([], { x: 0, y: 0 })).toBeUndefined()
  })
})

describe('zoom', () => {
  const forty = places(PLACES_40)

  it('of 40 positions at 390 px width begins where no two rivets of 28 px overlap', () => {
    const { first } = zoomRange(forty, SIZE, WINDOW)
    expect(spacing(scaled(forty, (WIDTH_PX * first) / SIZE.w))).toBeGreaterThanOrEqual(28)
  })

  it('of 40 positions at 390 px width reaches a target of 56 px for every one of them', () => {
    const { max } = zoomRange(forty, SIZE, WINDOW)
    const shown = scaled(forty, (WIDTH_PX * max) / SIZE.w)
    for (const place of shown) {
      for (const [dx, dy] of [
        [27, 0],
        [-27, 0],
        [0, 27],
        [0, -27],
      ] as const) {
        expect(nearest(shown, { x: place.x + dx, y: place.y + dy })?.id).toBe(place.id)
      }
    }
  })

  it('lets each of 40 positions at 390 px width be hit half a rivet off in the first view', () => {
    const { first } = zoomRange(forty, SIZE, WINDOW)
    const shown = scaled(forty, (WIDTH_PX * first) / SIZE.w)
    for (const place of shown) {
      for (const off of [-14, 14]) {
        expect(nearest(shown, { x: place.x + off, y: place.y })?.id).toBe(place.id)
        expect(nearest(shown, { x: place.x, y: place.y + off })?.id).toBe(place.id)
      }
    }
  })

  it('of 22 positions with room begins with the whole width and goes to three times', () => {
    const { min, first, max } = zoomRange(places(PLACES_22), SIZE, WINDOW)
    expect([first, max]).toEqual([1, 3])
    /* 390 px high, the drawing is 303.5 px wide: the whole of it is in view. */
    expect(min * WIDTH_PX).toBeCloseTo(303.5, 1)
  })

  it('of a wide page begins no wider than 440 px', () => {
    const { first } = zoomRange(places(PLACES_22), SIZE, { w: 616, h: 340 })
    expect(first * 616).toBeCloseTo(440, 6)
  })

  it('stays between its ends', () => {
    expect([clamp(0.2, 1, 3), clamp(2, 1, 3), clamp(9, 1, 3)]).toEqual([1, 2, 3])
  })

  it('keeps what lies under the fingers where it is', () => {
    const scroll = { x: 40, y: 10 }
    const anchor = { x: 100, y: 50 }
    const after = scrollAbout(scroll, anchor, 2)
    expect({ x: (after.x + anchor.x) / 2, y: (after.y + anchor.y) / 2 }).toEqual({ x: 140, y: 60 })
  })

  it('puts the picked position in the middle, but shows nothing beyond the drawing', () => {
    const window = { w: 100, h: 100 }
    const content = { w: 300, h: 150 }
    expect(centred({ x: 150, y: 75 }, window, content)).toEqual({ x: 100, y: 25 })
    expect(centred({ x: 10, y: 149 }, window, content)).toEqual({ x: 0, y: 50 })
    expect(centred({ x: 10, y: 10 }, window, { w: 60, h: 60 })).toEqual({ x: 0, y: 0 })
  })
})

describe('a rivet', () => {
  it('is drawn 28 px wide, and smaller only where two would overlap', () => {
    expect([markSize(200), markSize(24), markSize(5)]).toEqual([28, 22, 14])
  })
})

describe('numbers', () => {
  it('stand beside the row, not in it', () => {
    const row = places([
      ['H1', 100, 100],
      ['H2', 140, 100],
      ['H3', 180, 100],
    ])
    const sides = sidesOfNumbers(row, SIZE)
    for (const { id } of row) expect(['above', 'below']).toContain(sides.get(id))
  })

  it('stand left and right of a row that goes down, and inside the drawing', () => {
    const row = places([
      ['P1', 18, 100],
      ['P2', 18, 140],
      ['P3', 18, 180],
    ])
    const sides = sidesOfNumbers(row, SIZE)
    expect(row.map(({ id }) => sides.get(id))).toEqual(['right', 'right', 'right'])
  })

  it('of the two rows of a post stand on the outer sides of both', () => {
    const all = places(PLACES_22)
    const sides = sidesOfNumbers(all, SIZE)
    expect(['P2', 'P3', 'P4', 'P5', 'P6'].map((id) => sides.get(id))).toEqual([
      'right',
      'left',
      'right',
      'left',
      'right',
    ])
  })
})

describe('the aperture', () => {
  it('is the largest box that keeps its distance from every position and pad', () => {
    const points = [
      { x: 50, y: 50 },
      { x: 150, y: 50 },
      { x: 50, y: 250 },
    ]
    const pads = [
      { x: 90, y: 270, w: 110, h: 30 },
      { x: 0, y: 120, w: 40, h: 60 },
    ]
    const box = aperture({ w: 200, h: 300 }, points, pads, 30)
    /* 160 wide above the position at 250 is 140 high: 22,400; beside it 120 by 190 are 22,800. */
    expect(box).toEqual({ x: 80, y: 80, w: 120, h: 190 })
    expect(Math.min(...points.map((one) => distance(one, { x: box.x, y: box.y })))).toBeGreaterThan(30)
  })

  it('is nothing where positions fill the drawing', () => {
    const box = aperture({ w: 100, h: 100 }, [{ x: 50, y: 50 }], [], 60)
    expect(box.w * box.h).toBe(0)
  })
})
