// Days of calibration and expiry: good until the day ends, due a month before, the most urgent first.
import { describe, expect, test } from 'vitest'
import { byUrgency, daysUntil, standingOf } from '../../src/core/views/calibration.ts'

const TODAY = '2026-03-01'

test.each([
  ['2026-02-28', 'over'],
  ['2026-03-01', 'soon'],
  ['2026-03-31', 'soon'],
  ['2026-04-01', 'good'],
  ['', 'unknown'],
])('a day of %s is %s', (day, standing) => {
  expect(standingOf(day, TODAY)).toBe(standing)
})

test('days are counted over a change of the clocks', () => {
  expect(daysUntil('2026-03-31', TODAY)).toBe(30)
  expect(daysUntil('2026-02-27', TODAY)).toBe(-2)
})

describe('what is listed', () => {
  test('is overdue first, then due, then unknown, then good, each by its day', () => {
    const days = ['2027-01-01', '', '2026-03-20', '2026-01-01', '2026-03-05', '2026-02-01']
    expect(byUrgency(days, (day) => day, TODAY)).toEqual([
      '2026-01-01',
      '2026-02-01',
      '2026-03-05',
      '2026-03-20',
      '',
      '2027-01-01',
    ])
  })
})
