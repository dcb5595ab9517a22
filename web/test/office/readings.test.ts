// A round of the sensors stands in one row of the time line; what differs in anything that is marked does not.
import { expect, test } from 'vitest'
import { fold } from '../../src/core/fold/index.ts'
import { officeJob } from '../../src/core/views/office_job.ts'
import { hashAt, logOf, type Made, MINUTE, NOON, OPENED, REF } from './a_job.ts'

const on: Made = {
  kind: 'heat',
  at: NOON + 10 * MINUTE,
  body: {
    ...REF,
    step: 'warm',
    act: 'on',
    ask: 'run',
    zone: 'upper',
    purpose: 'removal',
    pads: ['U1'],
    plan: '',
  },
}
const RUN = hashAt(logOf([...OPENED, on]), OPENED.length)
const reading = (sensor: string, at: number, rest: Partial<Pick<Made, 'received'>> = {}): Made => ({
  kind: 'reading',
  at,
  body: {
    run: RUN,
    sensor,
    unit: 'C',
    decimals: 0,
    points: [[60_000, 120]],
    run_doubt: false,
    typed_time: false,
  },
  ...rest,
})
function rowsOf(made: readonly Made[]): readonly number[] {
  const log = logOf([...OPENED, on, ...made])
  const state = fold(
    log.methods,
    log.items.map((item) => item.entry),
  )
  const [newest] = officeJob(log, state, []).groups
  return newest?.rows.map((row) => row.length) ?? []
}

const T = NOON + 12 * MINUTE

test('two sensors read within a minute are one row', () => {
  expect(rowsOf([reading('a', T), reading('b', T + 20_000)])).toEqual([2, 1])
})

test('the next round is another row', () => {
  expect(rowsOf([reading('a', T), reading('b', T), reading('a', T + 3 * MINUTE)])).toEqual([1, 2, 1])
})

test('what came late stands for itself', () => {
  expect(rowsOf([reading('a', T), reading('b', T + 1000, { received: T + 20 * MINUTE })])).toEqual([1, 1, 1])
})

test('a struck reading stands for itself, lined through', () => {
  const first = reading('a', T)
  const target = hashAt(logOf([...OPENED, on, first]), OPENED.length + 1)
  const strike: Made = { kind: 'strike', at: T + 2 * MINUTE, body: { target, reason: 'wrong channel' } }
  expect(rowsOf([first, reading('b', T + 1000), strike])).toEqual([1, 1, 1, 1])
})
