// The job page's views over the real fold: time line, photos, steps, findings, tally, runs, what is missing.
import { describe, expect, test } from 'vitest'
import { acceptDraft, admitDraft, countersignDraft, strikeDraft } from '../../src/core/views/office_drafts.ts'
import type { OfficeJob } from '../../src/core/views/office_job.ts'
import { ADA, MARA, type Made, MINUTE, NOON, PIM, REF } from './a_job.ts'
import { byOffice, first, gap, itemsOf, jobOf, photo, tick } from './made_job.ts'

describe('the time line', () => {
  test('is newest first, and what has no stage stands with what came before it', () => {
    const job = jobOf([
      tick('lock'),
      tick('drill'),
      { kind: 'tally', body: { position: 'H1', generation: 0, state: 'shank_out' } },
    ])
    expect(job.groups.map((group) => group.title)).toEqual(['Rivets and heat', 'Receiving', ''])
    expect(job.groups[0]?.items.map((item) => item.kind)).toEqual(['tally', 'tick'])
  })

  test('keeps a struck entry readable, with who struck it and why, and offers no second strike', () => {
    const read = gap(91)
    const job = jobOf([read, { kind: 'strike', body: { target: first([read]), reason: 'wrong scale' } }])
    const struck = itemsOf(job).find((item) => item.kind === 'reading')
    expect(struck).toMatchObject({
      shape: 'struck',
      canStrike: false,
      struck: { by: MARA, reason: 'wrong scale' },
    })
  })

  test('marks what reached the office late, by the clock of the server', () => {
    const job = jobOf([
      { ...tick('lock'), at: NOON, offset: 5 * MINUTE, received: NOON + 12 * MINUTE },
      { ...tick('drill'), at: NOON, received: NOON + 12 * MINUTE },
    ])
    const late = itemsOf(job)
      .filter((item) => item.kind === 'tick')
      .map((item) => item.late)
    expect(late.sort()).toEqual([false, true])
  })

  test('offers to send back a value, but no reading of a heat run', () => {
    const read: Made = {
      kind: 'reading',
      body: {
        run: 'f'.repeat(64),
        sensor: 'a',
        unit: 'C',
        decimals: 0,
        points: [[0, 20]],
        run_doubt: false,
        typed_time: false,
      },
    }
    const items = itemsOf(jobOf([gap(40), read])).filter((item) => item.kind === 'reading')
    expect(items.map((item) => item.canSendBack)).toEqual([false, true])
  })

  test('shows what is set aside as not counted until it is admitted', () => {
    const made = [{ ...tick('lock'), by: PIM }]
    const aside: Made = { kind: 'aside', by: ADA, body: { hashes: [first(made)], code: 'role' } }
    expect(jobOf([...made, aside]).asides).toMatchObject([{ code: 'role', by: PIM }])
    expect(jobOf([...made, aside, byOffice(admitDraft([first(made)], 'seen'))]).asides).toEqual([])
  })
})

test('entries of one moment keep the order in which the server numbered them', () => {
  const at = NOON
  const job = jobOf([
    { ...tick('lock'), at },
    { ...gap(40), at },
    { ...tick('drill'), at },
  ])
  expect(
    itemsOf(job)
      .filter((item) => item.at_ms === at && item.by === MARA)
      .map((item) => item.kind),
  ).toEqual(['tick', 'reading', 'tick'])
})

test('what was struck is named in the words of its author where no step is', () => {
  const note: Made = {
    kind: 'note',
    body: { method: '', digest: '', step: '', text: 'customer waits', about: [] },
  }
  const job = jobOf([note, { kind: 'strike', body: { target: first([note]), reason: 'not true' } }])
  expect(itemsOf(job).find((item) => item.kind === 'strike')?.what.subject).toBe('customer waits')
})

describe('a photo slot', () => {
  test('is wanted later, then now, then recorded but not here, then at the office', () => {
    const sha = 'a'.repeat(64)
    const stateOf = (job: OfficeJob) => job.photos.slots.find((slot) => slot.slot === 'before')?.state
    expect(stateOf(jobOf([]))).toBe('later')
    expect(stateOf(jobOf([tick('lock')]))).toBe('wanted')
    expect(stateOf(jobOf([photo(sha)]))).toBe('not_here')
    expect(stateOf(jobOf([photo(sha)], [sha]))).toBe('at_office')
  })

  test('names the step before which it is due in the words of the method', () => {
    expect(jobOf([]).photos.slots.find((slot) => slot.slot === 'pads')?.deadline).toBe('Drill the rivets')
  })
})

describe('steps', () => {
  test('a hold point is held once its turn has come, and ahead before that', () => {
    const holdOf = (job: OfficeJob) =>
      job.stages.flatMap((stage) => stage.steps).find((step) => step.step === 'measure')?.hold
    expect(holdOf(jobOf([]))).toBe('ahead')
    expect(holdOf(jobOf([tick('lock')]))).toBe('held')
  })

  test('a countersign names the shown value of every answered ask of its step', () => {
    const job = jobOf([tick('lock')])
    const lock = job.stages[0]?.steps[0]
    const sign = lock?.signs[0]
    if (lock === undefined || sign === undefined)
      throw new Error('the method has a countersign in its first step')
    expect(countersignDraft(lock, sign)).toEqual({
      kind: 'countersign',
      body: { ...REF, step: 'lock', ask: 'sign', saw: [] },
    })
  })
})

describe('findings and deviations', () => {
  const outside = gap(58)
  const deviation: Made = {
    kind: 'deviation',
    body: { ...REF, step: 'measure', text: 'flange was bent', about: [first([outside])], passes_hold: true },
  }

  test('a finding says where in the words of the method, and is accepted by all that it names', () => {
    const [found] = jobOf([outside]).findings
    expect(found).toMatchObject({ code: 'outside_limits', where: 'Measure the gap, Gap' })
    if (found === undefined) throw new Error('a reading outside its limits is a finding')
    const accepted = jobOf([outside, byOffice(acceptDraft(found, 'measured again by hand'))]).findings[0]
    expect(accepted?.accepted).toMatchObject({ by: ADA, reason: 'measured again by hand' })
  })

  test('a deviation is open until the office accepts it, and again once that is struck', () => {
    const made = [outside, deviation]
    const [open] = jobOf(made).deviations
    if (open === undefined) throw new Error('the deviation is shown')
    const accept = byOffice(acceptDraft(open, 'agreed'))
    expect(jobOf([...made, accept]).deviations[0]?.accepted?.reason).toBe('agreed')
    const strike = byOffice(strikeDraft(first([...made, accept], 2), 'too early'))
    expect(jobOf([...made, accept, strike]).deviations[0]?.accepted).toBeUndefined()
  })
})

describe('what is missing', () => {
  test('is named in the order in which it is mended, zero left out', () => {
    expect(jobOf([tick('lock')]).lacks.map((lack) => lack.code)).toEqual([
      'steps_open',
      'holds_open',
      'findings_open',
      'photos_wanted',
      'not_closed',
    ])
  })

  test('counts a photo whose bytes are still on a phone', () => {
    const lack = jobOf([photo('a'.repeat(64))]).lacks.find((one) => one.code === 'photos_not_here')
    expect(lack?.count).toBe(1)
  })
})

describe('tally and heat run', () => {
  const at = (position: string, body: object): Made => ({
    kind: 'tally',
    body: { position, generation: 0, ...body } as never,
  })

  test('every position stands in one place, and a lost piece is to be accounted for', () => {
    const { tally } = jobOf([
      at('H1', { state: 'shank_out' }),
      at('H2', { state: 'shank_out' }),
      at('H2', { mark: 'lost', piece: 'shank', lost: '' }),
      at('H3', { mark: 'damaged_hole', piece: '', lost: '' }),
    ])
    expect(tally).toMatchObject({ total: 3, toAccountFor: 1, damagedHoles: ['H3'] })
    expect(tally.groups[0]?.counts.reduce((sum, one) => sum + one.count, 0)).toBe(3)
  })

  test('a run shows its zone, the last reading of every sensor, and is hot until cold', () => {
    const on: Made = {
      kind: 'heat',
      body: {
        ...REF,
        step: 'warm',
        ask: 'run',
        act: 'on',
        zone: 'upper',
        purpose: 'removal',
        pads: ['U1', 'U2'],
        plan: '',
      },
    }
    const run = first([on])
    const read: Made = {
      kind: 'reading',
      body: {
        run,
        sensor: 'a',
        unit: 'C',
        decimals: 0,
        points: [
          [2000, 150],
          [1000, 140],
        ],
        run_doubt: false,
        typed_time: false,
      },
    }
    const cold: Made = {
      kind: 'heat',
      body: { act: 'cold', run, pad: '', run_ms: 9000, run_doubt: false, typed_time: false, text: '' },
    }
    expect(jobOf([on, read]).runs[0]).toMatchObject({
      zone: 'Upper zone',
      state: 'hot',
      soak_wanted_ms: 90_000,
    })
    expect(jobOf([on, read]).runs[0]?.sensors.map((sensor) => sensor.last?.value)).toEqual([150, undefined])
    expect(jobOf([on, read, cold]).runs[0]?.state).toBe('cold')
  })
})
