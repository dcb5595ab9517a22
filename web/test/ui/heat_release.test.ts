// How a run of the demo's removal ends: stages, progress, chart, the steps that it is part of; and a cure.
import { describe, expect, it } from 'vitest'
import { chartEnd, runChartOf } from '../../src/core/views/run_chart_view.ts'
import { nextOf, stageMs } from '../../src/core/views/run_next.ts'
import { progressOf } from '../../src/core/views/run_progress.ts'
import { nextWords, phaseWords } from '../../src/ui/phone/heat_words.ts'
import { cardNow } from './played.ts'
import { actAt, type Begun, begunAt, placeNow, readAt, usualTo } from './played_heat.ts'

const MINUTE = 60_000

async function released(): Promise<Begun> {
  const made = await begunAt('rem-27')
  await usualTo(made.fake, made.run, 39)
  await actAt(made.fake, made.run, 39.5, 'soaked')
  await actAt(made.fake, made.run, 40, 'workable')
  return made
}

describe('the staged release', () => {
  it('calls each pad in the order of release, the first without a time, the next after a stage', async () => {
    const { fake, run, view } = await released()
    expect((await view()).next).toMatchObject({ act: 'turn_down', pad: 'U1', due_ms: undefined })
    await actAt(fake, run, 46, 'turn_down', { pad: 'U1' })
    const { next, ask } = await view()
    // (185 - 125) K at 8 K/min.
    expect(stageMs(ask.settings)).toBe(7.5 * MINUTE)
    expect(next).toMatchObject({ act: 'turn_down', pad: 'U2', due_ms: 53.5 * MINUTE })
  })

  it('lifts only once the metal is below the limit, then off, then cold by the readings', async () => {
    const { fake, run, view } = await released()
    for (const [minute, pad] of [
      [46, 'U1'],
      [54, 'U2'],
    ] as const)
      await actAt(fake, run, minute, 'turn_down', { pad })
    await readAt(fake, run, 60, { a: 98, b: 102, c: 97, m: 101, n: 52 })
    expect((await view()).next).toMatchObject({ act: 'read', leads: 'lift', due_ms: 65 * MINUTE })
    await readAt(fake, run, 66, { a: 57, b: 60, c: 56, m: 58, n: 41 })
    const shown: string[] = [nextWords(await view())]
    for (const pad of ['U1', 'U2']) {
      await actAt(fake, run, 67, 'lift', { pad })
      shown.push(nextWords(await view()))
    }
    await actAt(fake, run, 68, 'off')
    shown.push(nextWords(await view()))
    await readAt(fake, run, 76, { a: 39, b: 41, c: 38, m: 40, n: 33 })
    shown.push(nextWords(await view()))
    expect(shown).toEqual(['Lift pad U1', 'Lift pad U2', 'Switch off', 'Read the sensors', 'Cold'])
  })

  it('advises to wait when the bond falls too fast', async () => {
    const { fake, run, view } = await released()
    await actAt(fake, run, 46, 'turn_down', { pad: 'U1' })
    await readAt(fake, run, 47, { a: 150, b: 143, c: 133, m: 165, n: 60 })
    await readAt(fake, run, 49, { a: 130, b: 139, c: 130, m: 150, n: 58 })
    expect((await view()).alarms).toContainEqual({ code: 'cooling', sensor: 'a', rate: 10, limit: 8 })
  })

  it('shows its progress in the silhouette, never back', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    const shares = [progressOf(await view(), 5 * MINUTE)]
    await usualTo(fake, run, 29)
    shares.push(progressOf(await view(), 31 * MINUTE))
    await usualTo(fake, run, 39)
    await actAt(fake, run, 39.5, 'soaked')
    shares.push(progressOf(await view(), 40 * MINUTE))
    await actAt(fake, run, 46, 'turn_down', { pad: 'U1' })
    shares.push(progressOf(await view(), 46 * MINUTE))
    await actAt(fake, run, 80, 'off')
    shares.push(progressOf(await view(), 80 * MINUTE))
    await actAt(fake, run, 90, 'cold')
    shares.push(progressOf(await view(), 90 * MINUTE))
    expect([...shares].sort((a, b) => a - b)).toEqual(shares)
    expect(shares.at(-1)).toBe(1)
  })

  it('draws the coldest and hottest of the bond, metal and neighbour, and the soak until the release', async () => {
    const { fake, run, view } = await released()
    await actAt(fake, run, 46, 'turn_down', { pad: 'U1' })
    await readAt(fake, run, 48, { a: 148, b: 139, c: 130, m: 160, n: 62 })
    const chart = runChartOf(await cardNow(fake), await view())
    expect([chart.lagging.length, chart.leading.at(-1)?.value, chart.metal.at(-1)?.value]).toEqual([
      9, 148, 160,
    ])
    expect(chart.soak).toEqual([24 * MINUTE, 39 * MINUTE])
    expect([chart.min, chart.max, chart.metal_max, chart.neighbour_max]).toEqual([125, 185, 190, 80])
  })

  it('is drawn up to the clock while it heats, and no further than its last entry once aborted or cold', async () => {
    const { fake, run, view } = await released()
    const years_later = 10_000_000 * MINUTE
    expect(chartEnd(await view(), 44 * MINUTE)).toBe(44 * MINUTE)
    await actAt(fake, run, 45, 'abort')
    expect(chartEnd(await view(), years_later)).toBe(45 * MINUTE)
    await readAt(fake, run, 50, { a: 98, b: 102, c: 97, m: 101, n: 52 })
    expect(chartEnd(await view(), years_later)).toBe(50 * MINUTE)
    await actAt(fake, run, 80, 'cold')
    expect(chartEnd(await view(), years_later)).toBe(80 * MINUTE)
  })
})

describe('parts of a run', () => {
  it('is done for its first step once soaked, and goes on for the step that releases', async () => {
    const { fake } = await released()
    const heating = await placeNow(fake, 'rem-27')
    const releasing = await placeNow(fake, 'rem-29')
    expect(heating.place.state.open).not.toContain('run')
    expect(releasing.place.state.open).toContain('release')
  })
})

describe('a cure', () => {
  it('speaks of soaked where a removal is workable, and asks nobody whether it can be parted', async () => {
    const { fake, run, view } = await begunAt('fit-27')
    await actAt(fake, run, 90, 'soaked')
    const shown = await view()
    expect(phaseWords(shown)).toBe('soaked, pads on')
    expect(shown.next).toMatchObject({ act: 'turn_down', pad: 'L2' })
    expect(nextOf(shown, 'workable', undefined).act).toBe('turn_down')
  })
})
