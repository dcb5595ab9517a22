/**
 * One scale of colours for temperature, dark to light: even steps look even, and it survives grey printing.
 *
 * Our own table, as the plan's picture of the command line: lightness rises evenly from 18 to 92 in CIE L*a*b* (CIE
 * 15:2018, Colorimetry, sec. 8.2.1) while the hue turns from blue over red to yellow; sRGB by IEC 61966-2-1.
 */
const TABLE = [
  0x252a48, 0x2d2e50, 0x373158, 0x41345f, 0x4c3765, 0x58396b, 0x643c6f, 0x703e73, 0x7c4076, 0x884378,
  0x944579, 0x9f497a, 0xaa4c7a, 0xb4507a, 0xbe5579, 0xc65b79, 0xce6178, 0xd46777, 0xdb6f76, 0xe07676,
  0xe57f76, 0xe98777, 0xec9079, 0xee997b, 0xf0a27f, 0xf2ab83, 0xf3b489, 0xf4bd90, 0xf4c597, 0xf5cea0,
  0xf6d6aa, 0xf7dfb5, 0xf8e7c0,
] as const

export type Colour = readonly [red: number, green: number, blue: number]

const parts = (colour: number): Colour => [(colour >> 16) & 255, (colour >> 8) & 255, colour & 255]

/** Red, green and blue (0 to 255) of a share from 0, the coldest, to 1; what lies beyond takes the end's. */
export function heatColour(share: number): Colour {
  const at = Math.min(Math.max(share, 0), 1) * (TABLE.length - 1)
  const from = Math.min(Math.floor(at), TABLE.length - 2)
  const [low, high] = [parts(TABLE[from] ?? 0), parts(TABLE[from + 1] ?? 0)]
  const mix = (part: 0 | 1 | 2): number => Math.round(low[part] + (high[part] - low[part]) * (at - from))
  return [mix(0), mix(1), mix(2)]
}

export function heatColourText(share: number): string {
  return `rgb(${heatColour(share).join(' ')})`
}
