// Two revisions of a method, told by step and ask: added, removed, changed with old and new.
import { describe, expect, test } from 'vitest'
import type { Ask, HeatRunAsk, MethodDoc, ReadingAsk, StepDoc } from '../../src/core/method.ts'
import { isSame, methodDifference } from '../../src/core/views/method_difference.ts'
import { METHOD } from './a_job.ts'

const plain = METHOD.stages[0]?.steps[0] as StepDoc
const step = (id: string, change: Partial<StepDoc> = {}): StepDoc => ({
  ...plain,
  id,
  title: id,
  asks: [],
  ...change,
})
const reading = (change: Partial<ReadingAsk> = {}): Ask => ({
  kind: 'reading',
  id: 'gap',
  name: 'gap',
  unit: 'mm',
  decimals: 1,
  min: 30,
  max: 45,
  points: [],
  ...change,
})
const heat = (soak_s: number, leading_max: number): HeatRunAsk => ({
  kind: 'heat_run',
  id: 'run',
  name: 'run',
  zone: 'upper',
  purpose: 'removal',
  settings: {
    sensors_unit: 'C',
    decimals: 0,
    lagging_min: 130,
    leading_max,
    soak_s,
    gap_max_s: 300,
    ramp_s: 2700,
    release: ['U1', 'U2'],
    cold_below: 45,
  },
})
const method = (revision: string, ...steps: readonly StepDoc[]): MethodDoc => ({
  ...METHOD,
  revision,
  stages: [{ id: 's', title: 'Measure', steps }],
})
const between = (before: readonly StepDoc[], after: readonly StepDoc[]) =>
  methodDifference(method('3', ...before), method('4', ...after))

test('two revisions with the same steps are the same, whatever they are called', () => {
  const difference = between([step('a')], [step('a')])
  expect(isSame(difference)).toBe(true)
  expect([difference.from.revision, difference.to.revision]).toEqual(['3', '4'])
})

test('steps that came and went are named, what went first', () => {
  const difference = between([step('a'), step('b')], [step('b'), step('c', { asks: [reading()] })])
  expect(difference.steps.map((one) => [one.how, one.step])).toEqual([
    ['removed', 'a'],
    ['added', 'c'],
  ])
  expect(difference.steps[1]?.asks[0]).toMatchObject({ how: 'added', name: 'gap' })
})

test('a changed limit is told as it was and as it is, with unit and decimals', () => {
  const difference = between(
    [step('a', { asks: [reading()] })],
    [step('a', { asks: [reading({ max: 50 })] })],
  )
  expect(difference.steps[0]?.asks[0]?.changes).toEqual([
    {
      member: 'max',
      as: 'one',
      before: { as: 'figure', value: 45, unit: 'mm', decimals: 1 },
      after: { as: 'figure', value: 50, unit: 'mm', decimals: 1 },
    },
  ])
})

test('a limit that was not there before was nothing', () => {
  const { max: _max, ...open } = reading() as ReadingAsk
  const difference = between([step('a', { asks: [open] })], [step('a', { asks: [reading()] })])
  expect(difference.steps[0]?.asks[0]?.changes[0]).toMatchObject({ member: 'max', before: { as: 'nothing' } })
})

test('a heat run’s settings are compared one by one', () => {
  const difference = between(
    [step('a', { asks: [heat(900, 180)] })],
    [step('a', { asks: [heat(1200, 195)] })],
  )
  expect(difference.steps[0]?.asks[0]?.changes).toEqual([
    {
      member: 'leading_max',
      as: 'one',
      before: { as: 'figure', value: 180, unit: 'C', decimals: 0 },
      after: { as: 'figure', value: 195, unit: 'C', decimals: 0 },
    },
    {
      member: 'soak_s',
      as: 'one',
      before: { as: 'time', seconds: 900 },
      after: { as: 'time', seconds: 1200 },
    },
  ])
})

test('an ask that became another kind went and came', () => {
  const tick: Ask = { kind: 'tick', id: 'gap', name: 'gap' }
  const difference = between([step('a', { asks: [tick] })], [step('a', { asks: [reading()] })])
  expect(difference.steps[0]?.asks.map((one) => [one.how, one.kind])).toEqual([
    ['removed', 'tick'],
    ['added', 'reading'],
  ])
})

describe('a step differs by', () => {
  const CHANGES: readonly (readonly [string, Partial<StepDoc>])[] = [
    ['its title', { title: 'A' }],
    ['its instruction', { instruction: 'Otherwise.' }],
    ['its caution', { caution: 'Hot.' }],
    ['who does it', { who: ['high_voltage'] }],
    ['how many people', { people: 2 }],
    ['what it needs', { needs: ['b'] }],
    ['its hold point', { hold: true }],
    ['who signs past it', { hold_countersign: 'office' }],
    ['what goes on meanwhile', { meanwhile: ['b'] }],
    ['what it sets', { sets: ['braced'] }],
    ['what it clears', { clears: ['braced'] }],
    ['its tools', { tools: ['punch'] }],
  ]
  test.each(CHANGES)('%s', (_, change) => {
    const difference = between([step('a')], [step('a', change)])
    expect(difference.steps[0]?.changes.map((one) => one.member)).toEqual(Object.keys(change))
  })

  test('the order of its asks alone', () => {
    const other: Ask = { kind: 'tick', id: 'seen', name: 'seen' }
    const difference = between(
      [step('a', { asks: [reading(), other] })],
      [step('a', { asks: [other, reading()] })],
    )
    expect(difference.steps[0]?.asks[0]?.changes[0]).toEqual({
      member: 'order',
      as: 'list',
      before: ['gap', 'seen'],
      after: ['seen', 'gap'],
    })
  })
})

test('a step that only moved to another stage is told, and answers as before', () => {
  const before = method('3', step('a'))
  const after = { ...method('4'), stages: [{ id: 's', title: 'Elsewhere', steps: [step('a')] }] }
  expect(methodDifference(before, after).steps[0]).toMatchObject({ stage: 'Elsewhere', asksAnew: false })
})

test('two options that read alike and stop differently are told apart', () => {
  const choice = (stop: boolean): Ask => ({
    kind: 'choice',
    id: 'c',
    name: 'c',
    options: [{ id: 'torn', name: 'torn', stop }],
  })
  const [change] =
    between([step('a', { asks: [choice(false)] })], [step('a', { asks: [choice(true)] })]).steps[0]?.asks[0]
      ?.changes ?? []
  expect(change).toMatchObject({ before: ['torn stop false'], after: ['torn stop true'] })
})

test('another order of the same steps and another zone are changes of the method', () => {
  const before = method('3', step('a'), step('b'))
  const after = { ...method('4', step('b'), step('a')), zones: [] }
  expect(methodDifference(before, after).changes.map((one) => one.member)).toEqual(['zones', 'order'])
})
