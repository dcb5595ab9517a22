// What a heat run shows: phase, next act, remaining time; always from entries and the run clock.
import { describe, expect, it } from 'vitest'
import * as drafts from '../../src/core/views/drafts.ts'
import { dueOf } from '../../src/core/views/heat_view.ts'
import { callFor, isCallTime, spokenFor } from '../../src/ui/phone/alarms.tsx'
import { leadsWords, nextWords } from '../../src/ui/phone/heat_words.ts'
import { lateMs } from '../../src/ui/phone/run_acts.tsx'
import { playTo, read, runNow, spinePhone, switchOn, write } from './played.ts'
import type { Begun } from './played_heat.ts'

const HOT = [131, 128, 158]
const time = (run_ms: number) => ({ run_ms, run_doubt: false, typed_time: false })

async function begun(): Promise<Begun> {
  const fake = spinePhone()
  await playTo(fake, 'spn-09')
  const run = await switchOn(fake)
  return { fake, run, view: () => runNow(fake, run) }
}

describe('a heat run', () => {
  it('counts down the ramp from switch-on', async () => {
    const { view } = await begun()
    expect(await view()).toMatchObject({
      phase: 'ramp',
      next: { act: 'read', leads: 'soak', due_ms: 60_000 },
    })
    expect(dueOf(await view(), 24_000)).toMatchObject({ remaining_ms: 36_000, due: false })
  })

  it('counts the soak from the first moment at which every sensor is warm enough', async () => {
    const { fake, run, view } = await begun()
    await read(fake, run, 62_000, HOT)
    await read(fake, run, 110_000, HOT)
    expect(await view()).toMatchObject({ phase: 'soak', next: { leads: 'soaked', due_ms: 152_000 } })
    expect(dueOf(await view(), 115_000)?.remaining_ms).toBe(37_000)
  })

  it('counts to the next readings where they are due before the soak ends, and names them', async () => {
    const { fake, run, view } = await begun()
    await read(fake, run, 62_000, HOT)
    const shown = await view()
    expect(shown.next).toMatchObject({ act: 'read', leads: '', due_ms: 122_000 })
    expect(dueOf(shown, 95_000)?.remaining_ms).toBe(27_000)
    expect([nextWords(shown), leadsWords(shown)]).toEqual(['Read the sensors', 'then read the sensors again'])
  })

  it('does not begin the soak while one sensor is missing, and goes on with that moment', async () => {
    const { fake, run, view } = await begun()
    await read(fake, run, 62_000, HOT.slice(0, 2))
    expect(await view()).toMatchObject({ phase: 'ramp', round: { run_ms: 62_000, missing: ['m'] } })
  })

  it('asks for readings before the gap runs out, and is due when it has', async () => {
    const { fake, run, view } = await begun()
    await read(fake, run, 62_000, HOT)
    expect((await view()).read_by_ms).toBe(122_000)
    expect(dueOf(await view(), 130_000)).toEqual({ remaining_ms: -8_000, due: true, of: 'readings' })
  })

  it('says how far the lagging sensor is under the minimum and stops the countdown', async () => {
    const { fake, run, view } = await begun()
    await read(fake, run, 62_000, HOT)
    await read(fake, run, 110_000, [131, 120, 158])
    expect(await view()).toMatchObject({ short_by: 5 })
  })

  it('names the sensor that is over the maximum', async () => {
    const { fake, run, view } = await begun()
    await read(fake, run, 62_000, [131, 128, 190])
    expect((await view()).alarms).toContainEqual({ code: 'over', of: 'bond', sensor: 'm', by: 5 })
  })

  it('leads from soaked to workable, to the pads in the order of release, to off and to cold', async () => {
    const { fake, run, view } = await begun()
    for (const at of [62_000, 110_000, 153_000]) await read(fake, run, at, HOT)
    const shown = [nextWords(await view())]
    const acts = [
      ['soaked', ''],
      ['workable', ''],
      ['lift', 'U1'],
      ['lift', 'U2'],
      ['off', ''],
      ['cold', ''],
    ] as const
    for (const [act, pad] of acts) {
      await write(fake, [drafts.heatAct(run, act, time(160_000), { pad })])
      shown.push((await view()).phase === 'over' ? 'over' : nextWords(await view()))
    }
    expect(shown).toEqual(['Soaked', 'Workable?', 'Lift pad U1', 'Lift pad U2', 'Switch off', 'Cold', 'over'])
  })

  it('stays hot after an abort until cold is recorded', async () => {
    const { fake, run, view } = await begun()
    await write(fake, [drafts.heatAct(run, 'abort', time(20_000), { text: 'smoke' })])
    expect(await view()).toMatchObject({ phase: 'aborted', next: { act: 'cold' } })
  })
})

describe('the alarm', () => {
  it.each([
    [6 * 60_000, undefined],
    [5 * 60_000, 'five_min'],
    [60_000, 'one_min'],
    [0, 'due'],
    [-29_999, 'due'],
    [-30_000, 'overdue'],
  ] as const)('at %i ms calls %s', (remaining_ms, call) => {
    expect(callFor(remaining_ms, 20 * 60_000)).toBe(call)
  })

  it('does not call five minutes to whoever has just read the sensors, and calls the last one', () => {
    const again = 5 * 60_000
    expect(callFor(again, again)).toBeUndefined()
    expect(callFor(61_000, again)).toBeUndefined()
    expect(callFor(60_000, again)).toBe('one_min')
  })

  it('repeats the last minute every 20 s and the first warning never', () => {
    expect(isCallTime('one_min', 19_000)).toBe(false)
    expect(isCallTime('one_min', 20_000)).toBe(true)
    expect(isCallTime('five_min', 60_000)).toBe(false)
    expect(isCallTime('five_min', undefined)).toBe(true)
  })

  it('speaks when a mark is passed between two beats, once', () => {
    expect(spokenFor(120_500, 119_500, 'Soaked')).toBe('two minutes until Soaked')
    expect(spokenFor(119_500, 118_500, 'Soaked')).toBe('')
  })
})

describe('a time typed in late', () => {
  it.each([
    ['12', 720_000],
    ['12:30', 750_000],
    ['1:12:30', 4_350_000],
    ['12:75', undefined],
    ['soon', undefined],
    ['', undefined],
  ] as const)('%s is %s ms after switch-on', (typed, run_ms) => {
    expect(lateMs(typed)).toBe(run_ms)
  })
})
