// The clocks of a bond by the vectors that the server is held to.
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { readClock } from '../../src/core/computations/bond_clock.ts'

type Case = { readonly about: string; readonly stand: string } & Readonly<Record<string, number | boolean>>
const VECTORS = fileURLToPath(new URL('../../../tests/vectors/clocks/read_clock.json', import.meta.url))
const CASES = JSON.parse(readFileSync(VECTORS, 'utf8')) as readonly Case[]
const MIN = 60_000

describe('a clock of a bond', () => {
  it.each(CASES.map((one) => [one.about, one] as const))('%s', (_about, one) => {
    const ms = (name: string): number => Number(one[name]) * MIN
    const window = { min_ms: ms('minimum_min'), max_ms: ms('maximum_min') }
    expect(readClock(window, ms('since_min'), ms('step_min'))).toEqual({
      stand: one.stand.replace(' ', '_'),
      wait_ms: ms('wait_min'),
      left_ms: ms('left_min'),
      startsOutside: one.starts_outside,
      endsOutside: one.ends_outside,
      overBy_ms: ms('over_by_min'),
    })
  })
})
