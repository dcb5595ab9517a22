// The phone's fit of readings says what the server's says, on the vectors that the server's side made.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { fitOf, prepared } from '../../src/core/live/fit.ts'
import { familyOf, type ResponseDoc } from '../../src/core/live/response_set.ts'

const VECTORS = new URL('../../../tests/vectors/live/', import.meta.url)
const read = (name: string) => JSON.parse(readFileSync(new URL(name, VECTORS), 'utf8'))

type Case = { about?: string; readings: [at_s: number, sensor: string, T_C: number][] } & Record<
  string,
  unknown
>
const document: ResponseDoc = read('response.json')
const fits: { workable_C: number; cases: Case[] } = read('fits.json')
const set = prepared(familyOf(document), fits.workable_C)
const FIGURES = ['workable_s', 'from_s', 'until_s', 'contact', 'loss', 'misfit_K'] as const

test.each(fits.cases.map((one, i) => [one.about ?? `case ${i + 1}`, one] as const))('%s', (_, one) => {
  const told = fitOf(
    set,
    one.readings.map(([at_s, sensor, T_C]) => ({ at_s, sensor, T_C })),
  )
  expect([told.looks_like, told.names]).toEqual([one.looks_like, one.names])
  for (const name of FIGURES) {
    const expected = one[name] ?? Number.POSITIVE_INFINITY
    if (expected === Number.POSITIVE_INFINITY) expect(told[name]).toBe(expected)
    else
      expect(Math.abs(told[name] - Number(expected))).toBeLessThanOrEqual(1e-6 * Math.abs(Number(expected)))
  }
})
