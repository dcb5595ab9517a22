// A forecast is fitted once for the readings of a run, whatever other runs stand on the same plan.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import type { ResponseDoc } from '../../src/core/live/response_set.ts'
import { forecastOf } from '../../src/core/views/forecast_view.ts'

const VECTOR = new URL('../../../tests/vectors/live/response.json', import.meta.url)
const document: ResponseDoc = JSON.parse(readFileSync(VECTOR, 'utf8'))

function factsWith(value: number) {
  const sensor = document.sensors[0] ?? ''
  const rows = [{ sensor, of: 'bond', run_ms: 60_000, value }] as const
  return { rows, acts: [], settings: { decimals: 0, lagging_min: 125 } }
}

test('another run of the same zone does not push it out', () => {
  const before = forecastOf(document, factsWith(30), 'before the power went')
  forecastOf(document, factsWith(40), 'continued')
  expect(forecastOf(document, factsWith(30), 'before the power went').fit).toBe(before.fit)
})

test('it is fitted anew once something else was read', () => {
  const before = forecastOf(document, factsWith(30), 'one')
  expect(forecastOf(document, factsWith(31), 'one').fit).not.toBe(before.fit)
})
