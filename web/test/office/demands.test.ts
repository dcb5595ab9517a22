// Who can sign what the methods demand, what nobody on the job can, and how far a run is.
import { describe, expect, test } from 'vitest'
import type { MethodDoc, StepDoc } from '../../src/core/method.ts'
import { canGive, demandsOf, missingBefore } from '../../src/core/views/office_demands.ts'
import { type RunSoFar, runProfile } from '../../src/core/views/run_profile.ts'
import { METHOD } from './a_job.ts'

const MARA = { person: 'mara', name: 'Mara', roles: ['technician'], qualifications: ['bonder'] }
const TESS = { person: 'tess', name: 'Tess', roles: ['technician'], qualifications: ['high_voltage'] }
const ADA = { person: 'ada', name: 'Ada', roles: ['office'], qualifications: [] }

const plain = METHOD.stages[0]?.steps[0] as StepDoc
const step = (id: string, change: Partial<StepDoc>): StepDoc => ({
  ...plain,
  id,
  title: id,
  asks: [],
  ...change,
})
const method = (id: string, steps: readonly StepDoc[], needs_method = ''): MethodDoc => ({
  ...METHOD,
  id,
  title: id,
  needs_method,
  stages: [{ id: 's', title: 'S', steps }],
})
const sign = { id: 'seen', name: 'seen', kind: 'countersign', other_device: false, at_the_car: true } as const

const REMOVAL = method('removal', [
  step('lock', { who: ['high_voltage'], asks: [{ ...sign, of: 'second_person' }] }),
  step('strip', { who: ['technician'] }),
  step('agree', { who: ['technician'], hold: true, hold_countersign: 'office' }),
])

describe('what methods demand', () => {
  test('is met by a role or a qualification of somebody on the job', () => {
    const demands = demandsOf([REMOVAL], [MARA, TESS, ADA], ['mara', 'tess'])
    expect(demands.map((one) => [one.id, one.met])).toEqual([
      ['high_voltage', true],
      ['second_person', true],
      ['technician', true],
      ['office', true],
    ])
  })

  test('is met by the office without its being assigned, and by nobody where the shop has no office', () => {
    const of = (people: readonly (typeof ADA)[]) =>
      demandsOf([REMOVAL], people, []).find((one) => one.id === 'office')
    expect(of([ADA])).toMatchObject({ met: true, onJob: [ADA], inShop: [] })
    expect(of([])).toMatchObject({ met: false })
  })

  test('names who in the shop could, where nobody on the job can', () => {
    const [first] = demandsOf([REMOVAL], [MARA, TESS, ADA], ['mara'])
    expect(first).toMatchObject({ id: 'high_voltage', met: false, does: ['lock'], onJob: [], inShop: [TESS] })
  })

  test('takes two technicians for a second person: one works, the other signs', () => {
    const alone = demandsOf([REMOVAL], [MARA, TESS], ['mara']).find((one) => one.id === 'second_person')
    expect(alone).toMatchObject({ met: false, signs: ['lock'], onJob: [MARA], inShop: [TESS] })
  })

  test('a second person is a technician, as the fold judges it', () => {
    expect([canGive(MARA, 'second_person'), canGive(ADA, 'second_person')]).toEqual([true, false])
  })
})

describe('a method that needs another before it', () => {
  const fitting = method('fitting', [], 'removal')

  test('is content where it stands after it', () => {
    expect(missingBefore([REMOVAL, fitting])).toEqual([])
  })

  test.each([
    ['without it', [fitting]],
    ['in the wrong order', [fitting, REMOVAL]],
  ])('is named %s', (_, methods) => {
    expect(missingBefore(methods)).toEqual([{ method: 'fitting', needs: 'removal' }])
  })
})

describe('the silhouette of a run is filled', () => {
  const RUN: RunSoFar = {
    on_ms: 0,
    moments: ['on'],
    aborted: false,
    soak_ms: 0,
    soak_s: 600,
    ramp_s: 1000,
    pads: 2,
    pads_down: 0,
  }
  const SHARES: readonly (readonly [string, Partial<RunSoFar>, number, string, number])[] = [
    ['not at all at switch-on', {}, 0, 'ramp', 0],
    ['half the ramp in half its time', {}, 500_000, 'ramp', 0.17],
    ['no further than the ramp, however late', {}, 9_000_000, 'ramp', 0.34],
    ['by the soak that was counted', { soak_ms: 300_000 }, 0, 'soak', 0.46],
    ['to the soak’s end once it is soaked', { moments: ['on', 'soaked'] }, 0, 'soak', 0.58],
    ['by the pads that are down', { moments: ['on', 'soaked'], pads_down: 1 }, 0, 'release', 0.7],
    ['into the cool-down once it is off', { moments: ['on', 'off'] }, 0, 'cool_down', 0.91],
    ['into the cool-down by an abort', { aborted: true }, 0, 'cool_down', 0.91],
    ['wholly when it is cold', { moments: ['on', 'off', 'cold'] }, 0, 'cool_down', 1],
  ]
  test.each(SHARES)('%s', (_, change, now_ms, part, share) => {
    const profile = runProfile({ ...RUN, ...change }, now_ms)
    expect(profile.part).toBe(part)
    expect(profile.share).toBeCloseTo(share, 6)
  })
})
