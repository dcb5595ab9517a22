// Clocks of a bond: what runs, what warns, what was done outside; a new mixer restarts nothing.
import { beforeEach, describe, expect, it } from 'vitest'
import { type BondClock, bondClocksOf, standOf } from '../../src/core/views/bond_clocks.ts'
import { doneOutside } from '../../src/core/views/bond_outside.ts'
import { askOf } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { type MixerAct, mixerOf, mixerStand } from '../../src/core/views/mixer_clock.ts'
import type { FakePhone } from './fake_phone.ts'
import { answerWorkedOut, computePhone, playComputedTo, readAgain } from './played_compute.ts'
import { frameAt, frameCard, own } from './played_frame.ts'

const MIN = 60_000
let fake: FakePhone

async function clockOf(step: string): Promise<BondClock> {
  const found = bondClocksOf(await frameCard(fake)).find((one) => one.source.place.step.id === step)
  if (found === undefined) throw new Error(`no clock from ${step}`)
  return found
}

/** Now that many minutes are gone since the clock's start. */
async function atMinute(step: string, minute: number): Promise<void> {
  const { started } = await clockOf(step)
  fake.pass(started.entry.at_ms + minute * MIN - fake.services.device.clock.now().at_ms)
}

async function standAt(step: string, minute: number): Promise<string | undefined> {
  return standOf(await clockOf(step), minute * MIN)?.is
}

async function setRivet(position: string): Promise<void> {
  await own(fake, [drafts.tallyState({ position, generation: 1 }, 'set')])
}

async function mixer(act: MixerAct): Promise<void> {
  const { place } = await frameAt(fake, 'fit-18')
  await own(fake, [drafts.mixerNote(drafts.refOf(place), act, act)])
}

async function tickDone(step: string): Promise<void> {
  const { card, place } = await frameAt(fake, step)
  await own(fake, [drafts.tick(card, place, '')])
}

describe('the open time, at 23 °C in air, flange and cartridges', () => {
  beforeEach(async () => {
    fake = computePhone()
    await playComputedTo(fake, 'fit-17')
    await answerWorkedOut(fake, 'fit-17')
    await readAgain(fake, 'fit-17', 'flange', { '': 230 })
    await tickDone('fit-17')
    await answerWorkedOut(fake, 'fit-18')
  }, 60_000)

  it('counts from the first gram, to the part on first and to the last rivet then', async () => {
    const { windows, next } = await clockOf('fit-18')
    expect(windows.map((one) => [one.place.step.id, one.max_ms / MIN])).toEqual([
      ['fit-20', 20],
      ['fit-24', 35],
    ])
    expect(next?.place.step.id).toBe('fit-20')
  })

  it('warns of an end outside while all of the rehearsal lies ahead', async () => {
    await readAgain(fake, 'fit-11', 'rehearsal', { '': 23 })
    expect(await standAt('fit-18', 12)).toBe('open')
    expect(await standAt('fit-18', 13)).toBe('ends_outside')
    await tickDone('fit-18')
    await answerWorkedOut(fake, 'fit-19')
    await tickDone('fit-19')
    expect(await standAt('fit-18', 13)).toBe('open')
  })

  it('is shorter where something is warmer, and says so', async () => {
    await readAgain(fake, 'fit-17', 'air', { '': 280 })
    const { windows } = await clockOf('fit-18')
    expect(windows.at(-1)?.max_ms).toBeCloseTo((35 / Math.SQRT2) * MIN, 0)
    expect(windows.at(-1)?.shortened).toBe(true)
  })

  it('warns at minute 33, marks a rivet that is set at 35 and more, and no new mixer restarts it', async () => {
    await tickDone('fit-18')
    for (const step of ['fit-19', 'fit-20', 'fit-21']) {
      await answerWorkedOut(fake, step)
      await tickDone(step)
    }
    await atMinute('fit-18', 25)
    await mixer('changed')
    await setRivet('H4')
    // Planned: 6 of 7 header rivets in 3.4 of 4 min, then 5 and 4 min: 12.4 min to the last rivet at 35.
    expect(await standAt('fit-18', 22)).toBe('open')
    expect(await standAt('fit-18', 23)).toBe('ends_outside')
    expect(await standAt('fit-18', 33)).toBe('closing')
    expect(await standAt('fit-18', 36)).toBe('over')
    await atMinute('fit-18', 35)
    await setRivet('P9')
    const { late } = await clockOf('fit-18')
    expect(late.map((one) => [one.position, one.minute])).toEqual([['P9', 35]])
  })
})

describe('the mixer, whose gel time is 8 minutes by the method', () => {
  beforeEach(async () => {
    fake = computePhone()
    await playComputedTo(fake, 'fit-19')
  }, 60_000)

  it('is asked about from the first gram until the part is on', async () => {
    expect((await clockOf('fit-18')).mixing).toBe(true)
    for (const step of ['fit-19', 'fit-20']) await answerWorkedOut(fake, step)
    expect((await clockOf('fit-18')).mixing).toBe(false)
    expect((await clockOf('fit-13')).mixing).toBe(false)
  })

  it('counts while it stands, warns two minutes before it sets, and says when it has', async () => {
    await mixer('stands')
    const clock = mixerOf(await frameCard(fake))
    expect(clock.gel_ms).toBe(8 * MIN)
    expect(mixerStand(clock, 5 * MIN)).toEqual({ is: 'standing', ms: 3 * MIN })
    expect(mixerStand(clock, 6 * MIN)).toEqual({ is: 'setting', ms: 2 * MIN })
    expect(mixerStand(clock, 9 * MIN)).toEqual({ is: 'set', ms: MIN })
  })

  it('warns when it would set before the step at hand is through', async () => {
    await mixer('stands')
    const clock = mixerOf(await frameCard(fake))
    expect(mixerStand(clock, 2 * MIN, 6 * MIN).is).toBe('standing')
    expect(mixerStand(clock, 3 * MIN, 6 * MIN)).toEqual({ is: 'ends_outside', ms: 5 * MIN })
    expect(mixerStand(clock, 7 * MIN, 6 * MIN).is).toBe('setting')
  })

  it('stops counting when it flows or is changed', async () => {
    await mixer('stands')
    fake.pass(MIN)
    await mixer('flows')
    expect(mixerOf(await frameCard(fake)).stands).toBeUndefined()
    fake.pass(MIN)
    await mixer('stands')
    fake.pass(9 * MIN)
    await mixer('changed')
    const { stands, late } = mixerOf(await frameCard(fake))
    expect([stands, late]).toEqual([undefined, []])
  })

  it('marks one that flowed on though it had set', async () => {
    await mixer('stands')
    fake.pass(9 * MIN)
    await mixer('flows')
    const { late } = mixerOf(await frameCard(fake))
    expect(late.map((one) => Math.floor(one.stood_ms / MIN))).toEqual([9])
  })

  it('goes by the sheet that is in use, and only counts where nobody gives a gel time', async () => {
    const card = await frameCard(fake)
    const gel = { name: 'mixer_gel_time', value: 65, low: 60, high: 70, unit: 'min', decimals: 1 }
    const about = { digest: 'e'.repeat(64), group: 'adhesives', material: 'adhesive', name: 'Paste' }
    const sheet = { ...about, sheet: 'Paste data', revision: 'C', dated: '', values: [gel] }
    expect(mixerOf({ ...card, sheets: [sheet] }).gel_ms).toBe(6.5 * MIN)
    const unsaid = { ...mixerOf(card), gel_ms: undefined }
    expect(mixerStand(unsaid, 9 * MIN)).toEqual({ is: 'counting', ms: 9 * MIN })
  })
})

describe('the primer and the abraded surface', () => {
  beforeEach(async () => {
    fake = computePhone()
    await playComputedTo(fake, 'fit-16')
  }, 60_000)

  it('opens after the flash-off and closes after its longest', async () => {
    const { card, place } = await frameAt(fake, 'fit-16')
    const coat = place.step.asks.find((ask) => ask.id === 'coat')
    if (coat?.kind !== 'choice') throw new Error('no coat')
    await own(fake, [drafts.choice(card, place, coat, 'thin_and_even')])
    expect(await standAt('fit-16', 10)).toBe('too_early')
    expect(await standAt('fit-16', 20)).toBe('open')
    expect(await standAt('fit-16', 59)).toBe('closing')
    expect(await standAt('fit-16', 61)).toBe('over')
  })

  it('runs from abrading until the time is recorded at the clearance', async () => {
    expect((await clockOf('fit-13')).next?.place.step.id).toBe('fit-17')
    expect(await standAt('fit-13', 111)).toBe('closing')
    await answerWorkedOut(fake, 'fit-17')
    expect((await clockOf('fit-13')).next).toBeUndefined()
  })
})

describe('the surface since abrading, 120 minutes to the clearing', () => {
  beforeEach(async () => {
    fake = computePhone()
    await playComputedTo(fake, 'fit-16')
  }, 60_000)

  it('warns before the priming that the clearing after it would end outside: 25 and 10 minutes', async () => {
    expect(await standAt('fit-13', 85)).toBe('open')
    const stand = standOf(await clockOf('fit-13'), 86 * MIN)
    expect([stand?.is, stand?.ms, stand?.outside?.takes_ms]).toEqual(['ends_outside', 34 * MIN, 35 * MIN])
    expect([stand?.outside?.place.step.id, stand?.outside?.by]).toEqual(['fit-17', 'plan'])
    expect(await standAt('fit-13', 110)).toBe('closing')
    expect(await standAt('fit-13', 121)).toBe('over')
  })

  it('counts of a step that is begun what is left of it', async () => {
    await atMinute('fit-13', 80)
    const { card, place } = await frameAt(fake, 'fit-16')
    const coat = askOf(place, 'coat')
    if (coat?.kind !== 'choice') throw new Error('no coat')
    await own(fake, [drafts.choice(card, place, coat, 'thin_and_even')])
    // Begun at 80: at 94 there are 11 of its 25 minutes left, and the clearing's 10.
    expect(await standAt('fit-13', 94)).toBe('open')
  })
})

describe('the primer, 15 to 60 minutes from its coat to the bead', () => {
  beforeEach(async () => {
    fake = computePhone()
    await playComputedTo(fake, 'fit-17')
  }, 60_000)

  it('waits for its minimum, and warns before clearing, opening and bead would end outside: 19 min', async () => {
    expect(standOf(await clockOf('fit-16'), 10 * MIN)).toEqual({ is: 'too_early', ms: 5 * MIN })
    expect(await standAt('fit-16', 41)).toBe('open')
    const stand = standOf(await clockOf('fit-16'), 42 * MIN)
    expect([stand?.is, stand?.outside?.place.step.id]).toEqual(['ends_outside', 'fit-19'])
  })

  it('marks a bead that was laid after its maximum, and a mixer that had set', async () => {
    for (const step of ['fit-17', 'fit-18', 'fit-19']) await answerWorkedOut(fake, step)
    expect(doneOutside(await frameCard(fake))).toEqual([])
    await readAgain(fake, 'fit-19', 'since_primer', { '': 66 })
    await mixer('stands')
    fake.pass(9 * MIN)
    await mixer('flows')
    const outside = doneOutside(await frameCard(fake))
    expect(outside.map(({ kind }) => kind)).toEqual(['reading', 'mixer'])
    expect(outside[0]).toMatchObject({ took_ms: 66 * MIN, window: { min_ms: 15 * MIN, max_ms: 60 * MIN } })
  })
})
