// Sharpness and darkness by figures, on pictures whose blur and exposure are known because they are made here.
import { describe, expect, it } from 'vitest'
import { doubtsAbout, type Luma, lumaOf, qualityOf } from '../../src/device/picture_quality.ts'

const WIDTH = 96
const HEIGHT = 64

function picture(value: (x: number, y: number) => number): Luma {
  const values = new Float32Array(WIDTH * HEIGHT)
  for (let i = 0; i < values.length; i += 1) values[i] = value(i % WIDTH, Math.floor(i / WIDTH))
  return { width: WIDTH, height: HEIGHT, values }
}

/** Squares of 8 pixels, like a scale laid beside a hole. */
const squares = picture((x, y) => (((x >> 3) + (y >> 3)) % 2 === 0 ? 60 : 190))

/** A box blur of this radius, as a lens out of focus does it. */
function blurred(luma: Luma, radius: number): Luma {
  const at = (x: number, y: number) =>
    luma.values[Math.min(HEIGHT - 1, Math.max(0, y)) * WIDTH + Math.min(WIDTH - 1, Math.max(0, x))] ?? 0
  return picture((x, y) => {
    let sum = 0
    for (let dy = -radius; dy <= radius; dy += 1)
      for (let dx = -radius; dx <= radius; dx += 1) sum += at(x + dx, y + dy)
    return sum / (2 * radius + 1) ** 2
  })
}

const exposed = (luma: Luma, by: number): Luma => ({
  ...luma,
  values: luma.values.map((value) => Math.min(255, value * by)),
})

describe('sharpness', () => {
  it('is the variance of the Laplacian: one bright pixel of 1 on nothing, by hand', () => {
    const one = qualityOf({
      width: 5,
      height: 5,
      values: Float32Array.from({ length: 25 }, (_, i) => (i === 12 ? 1 : 0)),
    })
    // Inner 3 x 3: -4 in the middle, 1 at its four sides, 0 at the corners; mean 0, squares 16 + 4.
    expect(one.sharpness).toBeCloseTo(20 / 9, 6)
  })

  it('of an even slope is nothing: there is no edge in it', () => {
    expect(qualityOf(picture((x, y) => x + 2 * y)).sharpness).toBeCloseTo(0, 6)
  })

  it('falls as the blur grows, and is called soft from a blur that an eye sees', () => {
    const figures = [0, 1, 2, 4, 6].map((radius) => qualityOf(blurred(squares, radius)).sharpness)
    expect(figures).toEqual([...figures].sort((a, b) => b - a))
    expect(doubtsAbout(qualityOf(squares))).toEqual([])
    expect(doubtsAbout(qualityOf(blurred(squares, 6)))).toEqual(['soft'])
  })
})

describe('brightness', () => {
  it('is the mean luma by the weights of BT.601', () => {
    const { values } = lumaOf([255, 0, 0, 255, 0, 255, 0, 255, 0, 0, 255, 255, 255, 255, 255, 255], 4, 1)
    expect([...values].map((value) => Number(value.toFixed(3)))).toEqual([76.245, 149.685, 29.07, 255])
  })

  it('of a picture at a twentieth of its light is dark, and its sharpness is left alone', () => {
    const quality = qualityOf(exposed(squares, 1 / 20))
    expect(quality.brightness).toBeCloseTo(125 / 20, 3)
    expect(doubtsAbout(quality)).toEqual(['dark'])
  })

  it('of one with four times its light is too bright where it is washed out', () => {
    const quality = qualityOf(exposed(squares, 4.3))
    expect(quality.bright_share).toBe(1)
    expect(doubtsAbout(quality)).toContain('bright')
  })

  it('of a dark bay with a lit part of sufficient size is not doubted', () => {
    const lit = picture((x, y) => (x < 40 ? 12 : ((x >> 2) + (y >> 2)) % 2 === 0 ? 90 : 150))
    expect(doubtsAbout(qualityOf(lit))).toEqual([])
  })
})
