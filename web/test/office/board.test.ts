// The board: what a job waits for, the headline's figures, the order of rows, the steel rule.
import { describe, expect, test } from 'vitest'
import { byOrder, headlineOf, ruleOf, type WaitingJob, waitsOf } from '../../src/core/views/office_board.ts'
import { o } from '../../src/ui/words/office_en.ts'

const HELD = { title: 'Dry fit', asks: 2, of: ['second_person'] }
const JOB: WaitingJob = {
  order: '214',
  closed: false,
  filed: false,
  steps_done: 3,
  steps_total: 12,
  holds: [],
  next: { title: 'Drill the rivets' },
  photos_wanted: 0,
  photos_not_here: 0,
  set_aside: 0,
  assigned: ['mara'],
  methods: [{}],
  runs: [],
}

const TABLE: readonly (readonly [string, Partial<WaitingJob>, string])[] = [
  ['its next step', {}, 'next'],
  ['the hold point that holds it', { holds: [HELD] }, 'held'],
  ['a method, before anything else', { methods: [], holds: [HELD] }, 'method'],
  ['somebody to be assigned', { assigned: [] }, 'assign'],
  ['the office to close it, once all steps are done', { steps_done: 12 }, 'close'],
  ['the office to file it, once it is closed', { closed: true }, 'file'],
]

describe('a job on the board waits for', () => {
  test.each(TABLE)('%s', (_, change, code) => {
    expect(waitsOf({ ...JOB, ...change })[0]?.code).toBe(code)
  })

  test('what is set aside and the photos too, zero left out', () => {
    const waits = waitsOf({ ...JOB, set_aside: 2, photos_wanted: 1 })
    expect(waits.map((wait) => wait.code)).toEqual(['next', 'set_aside', 'photos_wanted'])
  })
})

describe('the headline', () => {
  test('is one sentence for each figure, zero included', () => {
    expect(o.board.headline(headlineOf([JOB]))).toBe('One open job. No heat run. None held.')
  })

  test('counts a closed job only as one to be filed', () => {
    const jobs = [JOB, { ...JOB, closed: true, holds: [HELD] }]
    expect(o.board.headline(headlineOf(jobs))).toBe('One open job. No heat run. None held. One to be filed.')
  })

  test('names heat runs and what is set aside', () => {
    const hot = { ...JOB, set_aside: 3, runs: [{ zone: 'Upper', on_ms: 1 }] }
    expect(o.board.headline(headlineOf([hot, hot]))).toBe(
      'Two open jobs. Two heat runs. None held. Two with records set aside.',
    )
  })
})

test('orders are sorted as people read them: 9 before 10, letters after', () => {
  const orders = ['10', '9', 'DEMO-1', '214', 'A7'].map((order) => ({ order })).sort(byOrder)
  expect(orders.map((one) => one.order).filter((order) => /^\d/.test(order))).toEqual(['9', '10', '214'])
})

test('a held job says of whom it waits, and what can go on meanwhile', () => {
  const waits = waitsOf({ ...JOB, holds: [HELD], free: { title: 'Bag the clips' } })
  expect(waits).toEqual([
    { code: 'held', ...HELD },
    { code: 'free', title: 'Bag the clips' },
  ])
})

test('the steel rule has one graduation a step, a gap at each stage, a cap at each hold and a wedge at the next', () => {
  const rule = ruleOf({ marks: 'dNoOo', stages: [2, 3] })
  expect(rule.map((one) => one.done)).toEqual([true, true, false, false, false])
  expect(rule.map((one) => one.hold)).toEqual([false, true, false, true, false])
  expect(rule.map((one) => one.stageStart)).toEqual([true, false, true, false, false])
  expect(rule.findIndex((one) => one.here)).toBe(2)
})

test('a rule whose steps are done out of order shows them where they are', () => {
  expect(ruleOf({ marks: 'dod', stages: [3] }).map((one) => one.done)).toEqual([true, false, true])
})

describe('what a phone said that it still holds', () => {
  test.each([
    [0, 2, 'at least 2 photos not here'],
    [3, 0, 'at least 3 records not here'],
    [1, 1, 'at least 1 record and 1 photo not here'],
  ])('%i records and %i photos', (records, photos, words) => {
    expect(o.board.holds(records, photos)).toBe(words)
  })
})

test('whose name a hold waits for is said in words', () => {
  expect(o.waits.heldFor(2, ['second_person'])).toBe('2 checks open, and the name of a second technician')
  expect(o.waits.heldFor(0, ['office'])).toBe('the office’s name')
  expect(o.waits.heldFor(1, [])).toBe('1 check open')
  expect(o.waits.heldFor(0, [])).toBe('something outside its limits')
})
