// Late, out of order, written down afterwards, before its hold: what the time line marks, and both times.
import { describe, expect, test } from 'vitest'
import { fold } from '../../src/core/fold/index.ts'
import type { MethodDoc, StepDoc } from '../../src/core/method.ts'
import { beforeHolds, isLate, outOfOrder, typedAt } from '../../src/core/views/office_order.ts'
import { DIGEST, logOf, type Made, METHOD, MINUTE, NOON, OPENED, PHONE_PIM, PIM, REF } from './a_job.ts'

const note = (text: string, at: number, rest: Pick<Made, 'by' | 'device' | 'received'> = {}): Made => ({
  kind: 'note',
  at,
  body: { method: '', digest: '', step: '', text, about: [] },
  ...rest,
})
const PIMS = { by: PIM, device: PHONE_PIM }
const disordered = (made: readonly Made[]): readonly string[] => {
  const log = logOf([...OPENED, ...made])
  const found = outOfOrder(log)
  return log.items.filter((item) => found.has(item.entry.hash)).map((item) => JSON.stringify(item.entry.body))
}

describe('an entry is out of order', () => {
  test('where it came after another device’s later ones', () => {
    const found = disordered([note('switch-on', NOON + 10 * MINUTE), note('sign', NOON + 6 * MINUTE, PIMS)])
    expect(found).toHaveLength(1)
    expect(found[0]).toContain('sign')
  })

  test('not for a minute, which two clocks may differ by', () => {
    expect(disordered([note('a', NOON + 10 * MINUTE), note('b', NOON + 9 * MINUTE, PIMS)])).toEqual([])
  })

  test('not after its own device’s: that order the chain tells', () => {
    expect(disordered([note('a', NOON + 10 * MINUTE), note('b', NOON + 5 * MINUTE)])).toEqual([])
  })
})

test('an entry is late after ten minutes on the way', () => {
  const [item] = logOf([note('a', NOON, { received: NOON + 11 * MINUTE })]).items
  const [quick] = logOf([note('a', NOON, { received: NOON + 10 * MINUTE })]).items
  expect([item && isLate(item), quick && isLate(quick)]).toEqual([true, false])
})

describe('done before its hold point', () => {
  const plain = METHOD.stages[0]?.steps[0] as StepDoc
  const step = (id: string, change: Partial<StepDoc> = {}): StepDoc => ({
    ...plain,
    id,
    title: id,
    needs: [],
    hold: false,
    meanwhile: [],
    asks: [],
    sets: [],
    clears: [],
    ...change,
  })
  const sign = {
    kind: 'countersign',
    id: 'seen',
    name: 'seen',
    of: 'second_person',
    other_device: false,
    at_the_car: true,
  } as const
  const method: MethodDoc = {
    ...METHOD,
    stages: [
      {
        id: 's',
        title: 'S',
        steps: [step('clear', { hold: true, asks: [sign], meanwhile: ['bag'] }), step('switch'), step('bag')],
      },
    ],
  }
  const done = (id: string, at: number): Made => ({
    kind: 'tick',
    at,
    body: { ...REF, step: id, ask: '', value: 'done', reason: '', over: [] },
  })
  const signed = (at: number): Made => ({
    kind: 'countersign',
    at,
    by: PIM,
    device: PHONE_PIM,
    as: ['technician'],
    body: { ...REF, step: 'clear', ask: 'seen', saw: [] },
  })
  const marked = (made: readonly Made[]): readonly string[] => {
    const log = { ...logOf([...OPENED, ...made]), methods: { [DIGEST]: method } }
    const state = fold(
      log.methods,
      log.items.map((item) => item.entry),
    )
    const found = beforeHolds(log, state)
    return log.items.flatMap(({ entry }) =>
      found.has(entry.hash) && entry.kind === 'tick'
        ? [`${entry.body.step} before ${found.get(entry.hash)}`]
        : [],
    )
  }

  test('is told by the clocks, though nothing was refused', () => {
    expect(marked([done('switch', NOON + 2 * MINUTE), signed(NOON + 6 * MINUTE)])).toEqual([
      'switch before clear',
    ])
  })

  test('is not said of what came after it', () => {
    expect(marked([signed(NOON + 1 * MINUTE), done('switch', NOON + 2 * MINUTE)])).toEqual([])
  })

  test('is not said of what may go on meanwhile', () => {
    expect(marked([done('bag', NOON + 2 * MINUTE)])).toEqual([])
  })

  test('is said while the hold is held', () => {
    expect(marked([done('switch', NOON + 2 * MINUTE)])).toEqual(['switch before clear'])
  })
})

test('what was typed afterwards says where in the run it belongs', () => {
  const run = { run: 'a'.repeat(64), pad: '', run_doubt: false, text: '' }
  const late: Made = { kind: 'heat', body: { act: 'remark', ...run, run_ms: 31 * MINUTE, typed_time: true } }
  const live: Made = { kind: 'heat', body: { act: 'remark', ...run, run_ms: 5, typed_time: false } }
  const [first, second] = logOf([late, live]).items
  expect([first && typedAt(first.entry), second && typedAt(second.entry)]).toEqual([31 * MINUTE, undefined])
})
