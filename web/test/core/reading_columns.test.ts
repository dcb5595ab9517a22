// Columns of a logger's file as a person puts them right: each column one thing, each thing one column.
import { expect, test } from 'vitest'
import { proposedAtOn, roleOf, withRole } from '../../src/core/views/reading_columns.ts'

const COLUMNS = {
  time: 0,
  date: -1,
  sensors: [
    { column: 1, sensor: 'a' },
    { column: 2, sensor: 'b' },
  ],
}

test('each column says what it is', () => {
  expect([0, 1, 2, 3].map((column) => roleOf(COLUMNS, column))).toEqual(['time', 'sensor a', 'sensor b', ''])
})

test('a sensor that another column had moves over', () => {
  const told = withRole(COLUMNS, 3, 'sensor a')
  expect(told.sensors).toEqual([
    { column: 2, sensor: 'b' },
    { column: 3, sensor: 'a' },
  ])
})

test('a column that is not used is no sensor any more', () => {
  expect(withRole(COLUMNS, 1, '').sensors).toEqual([{ column: 2, sensor: 'b' }])
})

test('the time moves to another column and is never nowhere', () => {
  const told = withRole(COLUMNS, 1, 'time')
  expect(told).toEqual({ time: 1, date: -1, sensors: [{ column: 2, sensor: 'b' }] })
  expect(withRole(COLUMNS, 0, '')).toBe(COLUMNS)
  expect(withRole(COLUMNS, 0, 'sensor m')).toBe(COLUMNS)
})

test('the day is one column at most', () => {
  const told = withRole(COLUMNS, 2, 'date')
  expect(told.date).toBe(2)
  expect(told.sensors).toEqual([{ column: 1, sensor: 'a' }])
  expect(withRole(told, 2, '').date).toBe(-1)
})

test('a clock is proposed as this place has it, what counts from switch-on as nought', () => {
  const on_ms = new Date(2026, 10, 30, 9, 5, 7).getTime()
  expect(proposedAtOn('clock', on_ms)).toBe('09:05:07')
  expect(proposedAtOn('minutes', on_ms)).toBe('0')
})
