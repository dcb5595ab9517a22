// The phone's verdict on a finished run says what the server's says, on shared runs.
import { expect, test } from 'vitest'
import { heatVerdict, type RunInput } from '../../src/core/live/verdict.ts'
import type { HeatSettings } from '../../src/core/method.ts'
import { vectorsIn } from './vector_files.ts'

type Told = { code: string; figure: number; limit?: number; standing: string }

const VECTORS = vectorsIn('verdict', [
  ...['about', 'source', 'tolerance', 'run', 'settings', 'earlier', 'overall', 'lines'],
])

test.each(VECTORS)('$name: $fields.about', ({ fields }) => {
  const { run, settings, earlier, overall, lines } = fields as {
    run: RunInput
    settings: HeatSettings
    earlier: readonly RunInput[]
    overall: string
    lines: readonly Told[]
  }
  const made = heatVerdict(run, settings, earlier)
  expect(made.overall).toBe(overall)
  expect(made.lines.map(({ code, standing }) => ({ code, standing }))).toEqual(
    lines.map(({ code, standing }) => ({ code, standing })),
  )
  for (const [i, { values }] of made.lines.entries()) {
    const [figure, limit] = values.map(({ value, decimals }) => value / 10 ** decimals)
    const step = 10 ** -(values[0]?.decimals ?? 0)
    expect(Math.abs((figure ?? 0) - (lines[i]?.figure ?? 0))).toBeLessThanOrEqual(step)
    expect(limit).toBe(lines[i]?.limit)
  }
})

test('nothing is judged of a run without a reading at the bond', () => {
  const run = { purpose: 'removal', aborted: false, readings: [], acts: [] } as const
  const settings = VECTORS[0]?.fields.settings as HeatSettings
  expect(heatVerdict(run, settings)).toMatchObject({ overall: 'not_judged', verdict: 'none', lines: [] })
})

test('an aborted run inside its limits conforms with a deviation', () => {
  const conforms = VECTORS.filter((one) => one.name === 'conforms').map(({ fields }) => fields)
  for (const fields of conforms) {
    const run = { ...(fields.run as RunInput), aborted: true }
    const made = heatVerdict(run, fields.settings as HeatSettings)
    expect(made.overall).toBe('conforming_with_deviations')
  }
  expect(conforms).toHaveLength(1)
})
