// What the office has on its shelf, as a step offers it.
import { expect, test } from 'vitest'
import { instrumentText, namedInstrument, shelfLots } from '../../src/core/views/shelf_view.ts'

const TORQUE = { number: 'T-07', kind: 'torque tool', calibrated_until: '2026-05-31' }
const GAUGE = { number: 'G 2', kind: 'bore gauge', calibrated_until: '' }

test('lots of the material are offered, the one that expires first on top, one without a day last', () => {
  const lots = [
    { material: 'adhesive', lot: 'A', expires: '' },
    { material: 'adhesive', lot: 'B', expires: '2027-01-01' },
    { material: 'primer', lot: 'C', expires: '2026-01-01' },
    { material: 'adhesive', lot: 'D', expires: '2026-06-01' },
  ]
  expect(shelfLots({ lots }, 'adhesive').map((one) => one.lot)).toEqual(['D', 'B', 'A'])
})

test('an instrument is written with its number, kind and calibration', () => {
  expect(instrumentText(TORQUE)).toBe('T-07, torque tool, calibrated until 2026-05-31')
  expect(instrumentText(GAUGE)).toBe('G 2, bore gauge')
})

test.each([
  ['T-07, torque tool', '2026-06-01', 'over'],
  ['t-07; in date', '2026-05-31', 'soon'],
  ['bore gauge G 2', '2026-05-31', 'unknown'],
])('%s on %s is known by its number and stands as %s', (text, today, standing) => {
  expect(namedInstrument(text, [TORQUE, GAUGE], today)?.standing).toBe(standing)
})

test.each(['T-070', 'X T-07a', 'another tool'])('%s names none of the register', (text) => {
  expect(namedInstrument(text, [TORQUE, GAUGE], '2026-05-31')).toBeUndefined()
})
