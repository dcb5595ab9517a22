// A heat plan as it is looked at: its field frame by frame, its colours, its curves and its figures.
import { describe, expect, it } from 'vitest'
import { type PlanAnswer, wholeWindow } from '../../src/core/views/office_heat_answer.ts'
import { heatColour } from '../../src/core/views/office_heat_colours.ts'
import { heatChart, valueAt_C } from '../../src/core/views/office_heat_curves.ts'
import { jointOf } from '../../src/core/views/office_heat_document.ts'
import {
  extremesOf,
  type Field,
  type FieldLayer,
  fieldOf,
  frameAt,
  lineOf,
  valueAt_dC,
} from '../../src/core/views/office_heat_field.ts'
import { figuresOf, inputsOf } from '../../src/core/views/office_heat_figures.ts'
import { amount, minutes, span } from '../../src/ui/words/en_heat_office.ts'
import { tables } from '../../src/ui/words/en_heat_plan.ts'

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ')

// Three columns and two rows; the layer lies on the left two columns only.
const FIELD: Field = fieldOf({
  x_mm: [0, 10, 20],
  y_mm: [0, 10],
  t_min: [0, 2, 5],
  lowest_dC: 200,
  highest_dC: 1000,
  layers: [
    {
      id: 'bond',
      name: 'bondline',
      role: 'adhesive',
      shown: [
        [1, 1, 0],
        [1, 1, 0],
      ],
      frames: [
        [200, 200, 0, 200, 200, 0],
        [100, 300, 0, 100, 300, 0],
        [50, -100, 0, 50, 500, 0],
      ],
    },
  ],
})
const LAYER = FIELD.layers[0] as FieldLayer

describe('the field', () => {
  it('adds each frame’s differences to the frame before', () => {
    expect([...(LAYER.frames[2] ?? [])]).toEqual([350, 400, 0, 350, 1000, 0])
  })

  it('knows the coldest and the hottest of what the layer reaches', () => {
    expect(extremesOf(FIELD, LAYER, 2)).toEqual({ lowest_dC: 350, highest_dC: 1000, hottest: [10, 10] })
  })

  it('reads a place between its points, and the edge beyond them', () => {
    expect(valueAt_dC(FIELD, LAYER, 1, [5, 5])).toBe(400)
    expect(valueAt_dC(FIELD, LAYER, 1, [15, 0])).toBe(500)
  })

  it('draws the line of one temperature where it runs', () => {
    // from 300 at x = 0 to 500 at x = 10, 400 lies half way
    expect(lineOf(FIELD, LAYER, 1, 400)).toEqual([
      [
        [5, 0],
        [5, 10],
      ],
    ])
    expect(lineOf(FIELD, LAYER, 1, 600)).toEqual([])
  })

  it('finds the frame of a time', () => {
    expect([0, 1.4, 3, 99].map((at_min) => frameAt(FIELD.t_min, at_min))).toEqual([0, 1, 1, 2])
  })
})

describe('the colours', () => {
  /** CIE 1976 L* of an sRGB colour, by IEC 61966-2-1 and CIE 15. */
  const lightness = (share: number): number => {
    const [r = 0, g = 0, b = 0] = heatColour(share)
      .map((part) => part / 255)
      .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4))
    const y = 0.2126 * r + 0.7152 * g + 0.0722 * b
    return y > (6 / 29) ** 3 ? 116 * Math.cbrt(y) - 16 : (29 / 3) ** 3 * y
  }

  it('grow lighter in even steps, so that equal steps of temperature look equal', () => {
    const tenths = Array.from({ length: 11 }, (_, n) => lightness(n / 10))
    for (const [n, light] of tenths.entries()) expect(light).toBeCloseTo(18 + 7.4 * n, -0.3)
  })

  it('hold their ends beyond the scale', () => {
    expect(heatColour(-1)).toEqual(heatColour(0))
    expect(heatColour(2)).toEqual(heatColour(1))
  })
})

const DOCUMENT = {
  ambient_C: 20,
  bondline: { layer: 'bond', workable_C: 120, maximum_C: 190, soak_min: 3 },
  layers: [
    { id: 'flange', name: 'flange', role: 'metal', thickness_mm: 3, limit_C: 150 },
    { id: 'bond', role: 'adhesive', thickness_mm: 1.5 },
  ],
  size_mm: [100, 50],
  pads: [{ id: 'P1', box_mm: [0, 0, 100, 50], power_W_cm2: 1.5 }],
}
const ANSWER: PlanAnswer = {
  model: 'a model',
  first: '',
  zone: 'seam',
  digest: '0'.repeat(64),
  name: 'seam',
  invented: true,
  purpose: 'removal',
  sentence: '',
  band: { contact_factor: [0.5, 1.6], loss_factor: [0.7, 1.4] },
  feasible: false,
  troubles: [],
  mended_by: '',
  workable_min: 12.8,
  workable_band_min: [8.9, 'never'],
  soak_min: 3,
  heat_until_min: 18,
  bondline_peak_band_C: [140, 205],
  metal_peak_band_C: [150, 215],
  leading: { x_mm: 1, y_mm: 1, T_C: 170 },
  lagging: { x_mm: 9, y_mm: 1, T_C: 120 },
  ramp_K_min: 20,
  cooling_K_min: 6,
  wedging_windows: [
    { x_mm: 0, from_min: 11, until_min: 25 },
    { x_mm: 50, from_min: 13, until_min: 24 },
  ],
  layers: [
    { layer: 'flange', peak_C: 160, peak_at_min: 20, peak_x_mm: 1, peak_y_mm: 1, above: [], limit_C: 150 },
    { layer: 'bond', peak_C: 185, peak_at_min: 20, peak_x_mm: 1, peak_y_mm: 1, above: [] },
  ],
  neighbours: [],
  release: [
    { at_min: 18, pad: 'P1', act: 'turn_down', power_share: 0.5 },
    { at_min: 24, pad: 'P1', act: 'off' },
  ],
  touch: { source: '', faces: [] },
  electric: { energy_kWh: 0.3, peak_W: 500, connected_W: 500 },
  curves: {
    t_s: [0, 600, 6000],
    coldest_bondline_C: [20, 100, 30],
    hottest_bondline_C: [20, 140, 40],
    sensors: { a: [20, 120, 35] },
  },
}

describe('the curves', () => {
  const chart = heatChart(ANSWER, jointOf(DOCUMENT))

  it('end some time after the last act', () => {
    expect(chart.end_min).toBe(39)
  })

  it('show each pad’s power from act to act', () => {
    expect(chart.pads).toEqual([
      {
        pad: 'P1',
        pieces: [
          { from_min: 0, until_min: 18, share: 1 },
          { from_min: 18, until_min: 24, share: 0.5 },
          { from_min: 24, until_min: 39, share: 0 },
        ],
      },
    ])
  })

  it('are read between their points', () => {
    const line = {
      kind: 'coldest',
      id: 'coldest',
      points: [
        [0, 20],
        [10, 100],
      ],
    } as const
    expect([valueAt_C(line, 5), valueAt_C(line, 20)]).toEqual([60, 100])
  })

  it('leave room for the words of the highest limit', () => {
    expect(chart.top_C).toBe(250)
  })
})

describe('the figures', () => {
  const figures = figuresOf(ANSWER, DOCUMENT)
  const figure = (id: string) => figures.find((one) => one.id === id)

  it('say never where the band has no end', () => {
    const band = figure('workable')?.band
    expect(band && plain(span(...band))).toBe('9 to never')
  })

  it('hold the hottest metal against its limit', () => {
    expect(figure('metal_peak')).toMatchObject({ from: { value: 160 }, limit: { value: 150 }, over: true })
    expect(figure('bond_peak')).toMatchObject({ from: { value: 185 }, limit: { value: 190 }, over: false })
  })

  it('run the release from its first act to its last', () => {
    const release = figure('release')
    expect(release?.to && plain(span(release.from, release.to))).toBe('18 to 24 min')
  })

  it('find the minutes in which all of the joint is soft', () => {
    expect(wholeWindow(ANSWER)).toEqual([13, 24])
    const hard = [{ x_mm: 0, from_min: 'never', until_min: 'never' } as const]
    expect(wholeWindow({ ...ANSWER, wedging_windows: hard })).toBeUndefined()
    expect(wholeWindow({ ...ANSWER, wedging_whole_min: [12, 25] })).toEqual([12, 25])
    expect(wholeWindow({ ...ANSWER, wedging_whole_min: ['never', 'never'] })).toBeUndefined()
  })

  it('name the inputs that they rest on, by the document’s own words', () => {
    expect(inputsOf(DOCUMENT, ['ambient', 'pads'])).toEqual([
      { of: '', key: 'ambient_C', said: 20 },
      { of: 'P1', key: 'power_W_cm2', said: 1.5 },
    ])
    expect(figures.every((one) => one.inputs.length > 0)).toBe(true)
  })

  it('bear the band of every answer that has one', () => {
    const bands = {
      heat_until_min: [15, 22],
      ramp_K_min: [17, 23],
      cooling_K_min: [5, 7],
      window_from_min: [11, 16],
      window_until_min: [22, 'never'],
      layers: [],
      touch: [],
      coldest_bondline_C: { t_s: [0, 600, 6000], low: [20, 90, 30], high: [20, 110, 40] },
    } as const
    const banded = figuresOf({ ...ANSWER, bands }, DOCUMENT)
    const ends = (id: string) => banded.find((one) => one.id === id)?.band?.map((end) => end.value)
    expect([ends('release'), ends('ramp'), ends('cooling'), ends('window')]).toEqual([
      [15, 22],
      [17, 23],
      [5, 7],
      [11, 16],
    ])
    const window = banded.find((one) => one.id === 'window')
    expect(window?.toBand?.map((end) => end.value)).toEqual([22, 'never'])
    expect(heatChart({ ...ANSWER, bands }, jointOf(DOCUMENT)).band?.[1]).toEqual([
      [0, 20],
      [10, 110],
    ])
  })

  it('stand with their unit', () => {
    expect(plain(amount({ value: -3.2, unit: 'C', decimals: 0 }))).toBe('−3 °C')
    expect([minutes(18), minutes(18.58)].map(plain)).toEqual(['18 min', '18.6 min'])
  })
})

describe('minutes above a limit', () => {
  it('name what runs of the zones beside have added', () => {
    expect(plain(tables.aboveLine('150 °C', '49 min', 12))).toBe(
      '150 °C: 49 min (12 min of it in earlier runs)',
    )
    expect(plain(tables.aboveLine('150 °C', '49 min', 12, [{ zone: 'post joint', minutes: 7 }]))).toBe(
      '150 °C: 49 min (12 min of it in earlier runs, 7 min of post joint)',
    )
  })
})
