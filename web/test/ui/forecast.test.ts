// What a pinned plan says on the phone: when workable, what the readings look like, the release step by step.
import { describe, expect, it } from 'vitest'
import { RUN_REMARKS, sensorFixed } from '../../src/core/live/remarks.ts'
import { forecastChartOf } from '../../src/core/views/forecast_chart.ts'
import { toldOf } from '../../src/core/views/forecast_told.ts'
import { type RunView, runViewOf } from '../../src/core/views/heat_view.ts'
import { plannedSteps } from '../../src/core/views/planned_release.ts'
import { nextWords } from '../../src/ui/phone/heat_words.ts'
import type { FakePhone } from './fake_phone.ts'
import { AS_PLANNED, type PlanHere, plannedPhone, readLike, SET, type Truth } from './planned_heat.ts'
import { cardNow } from './played.ts'
import { actAt, readAt, switchOnAt } from './played_heat.ts'

const MINUTE_MS = 60_000

type Run = {
  fake: FakePhone
  run: string
  view: () => Promise<RunView>
  told: (minute: number) => Promise<unknown>
}

async function begun(is: PlanHere = 'here'): Promise<Run> {
  const fake = plannedPhone(is)
  const run = await switchOnAt(fake, 'rem-27')
  const view = async () => {
    const found = runViewOf(await cardNow(fake), run)
    if (found === undefined) throw new Error('no run')
    return found
  }
  const told = async (minute: number) => toldOf(await cardNow(fake), await view(), minute * MINUTE_MS)
  return { fake, run, view, told }
}

async function read(truth: Truth, until_min: number): Promise<Run> {
  const made = await begun()
  await readLike(made.fake, made.run, truth, until_min)
  return made
}

describe('a forecast', () => {
  it('says that no plan is pinned, that it is not here yet, or that the app is too old for it', async () => {
    expect(await (await begun('none')).told(1)).toEqual({ is: 'none' })
    expect(await (await begun('not_here')).told(1)).toEqual({ is: 'not_here' })
    expect(await (await begun('newer')).told(1)).toEqual({ is: 'newer' })
  })

  it('is the plan’s own band before the first reading', async () => {
    const told = await (await begun()).told(1)
    const planned_min = (SET.answer.workable_s ?? 0) / 60
    expect(told).toMatchObject({ is: 'planned', minutes: { left: Math.round(planned_min) } })
  })

  it('forecasts a run that goes as planned to within 15 % of the plan, with a band that holds it', async () => {
    const { view } = await read(AS_PLANNED, 8)
    const { fit } = (await view()).forecast ?? {}
    const planned_s = SET.answer.workable_s ?? 0
    expect(Math.abs((fit?.workable_s ?? 0) / planned_s - 1)).toBeLessThan(0.15)
    expect(fit?.from_s).toBeLessThan(planned_s)
    expect(fit?.until_s).toBeGreaterThan(planned_s)
    expect(fit?.looks_like).toBe('')
  })

  it('counts down in whole minutes, and says workable once its time has come', async () => {
    const { told } = await read(AS_PLANNED, 8)
    expect(await told(8)).toMatchObject({ is: 'in' })
    expect(await told(20)).toMatchObject({ is: 'now' })
  })

  it('moves the plan’s window and its pads-on time with the forecast', async () => {
    const told = (await (await read({ row: 1, column: 3 }, 10)).told(10)) as { times: Record<string, number> }
    const { workable_ms = 0, window_ms = 0, pads_on_ms = 0 } = told.times
    const later_ms = workable_ms - (SET.answer.workable_s ?? 0) * 1000
    expect(later_ms).toBeGreaterThan(MINUTE_MS)
    expect(window_ms).toBe((SET.answer.window_until_s ?? 0) * 1000 + later_ms)
    expect(pads_on_ms).toBe((SET.answer.heat_until_s ?? 0) * 1000 + later_ms)
  })

  it('leads the countdown to the soak', async () => {
    const before = (await (await begun()).view()).next.due_ms ?? 0
    const slow = (await (await read({ row: 1, column: 3 }, 10)).view()).next.due_ms ?? 0
    expect(slow).toBeGreaterThan(before)
  })

  it('names a lifted pad, and counts only what is read after it was pressed on again', async () => {
    const { fake, run, told, view } = await read({ ...AS_PLANNED, lifted: ['U2', 4] }, 9)
    expect(await told(9)).toMatchObject({ is: 'looks', looks_like: 'pad_lifting', names: 'U2' })
    await actAt(fake, run, 9.5, 'remark', { pad: 'U2', text: RUN_REMARKS.reclamped })
    expect(await told(9.6)).toMatchObject({ is: 'planned' })
    expect((await view()).forecast).toMatchObject({ counted: 0, since_ms: 9.5 * MINUTE_MS })
  })

  it('names a sensor that came off, forecasts without it, and takes it in again once it is fastened', async () => {
    const { fake, run, told } = await read({ ...AS_PLANNED, off: ['b', 4] }, 8)
    expect(await told(8)).toMatchObject({ is: 'looks', looks_like: 'sensor_off', names: 'b', minutes: {} })
    await actAt(fake, run, 8.5, 'remark', { text: sensorFixed('b') })
    await readLike(fake, run, AS_PLANNED, 11, 9)
    expect(await told(11)).toMatchObject({ is: 'in' })
  })

  it('asks about a draught or another stack-up where no member fits', async () => {
    const draught = await read({ row: 2, column: 4, steeper: -4 }, 12)
    expect(await draught.told(12)).toMatchObject({ is: 'looks', looks_like: 'draught' })
    const other = await read({ row: 4, column: 0, steeper: 4 }, 8)
    expect(await other.told(8)).toMatchObject({ is: 'looks', looks_like: 'wrong_stack_up' })
  })

  it('says nothing from the moment that the power went', async () => {
    const { fake, run, told } = await read(AS_PLANNED, 5)
    await actAt(fake, run, 6, 'remark', { text: RUN_REMARKS.power_gone })
    expect(await told(8)).toEqual({ is: 'power', gone_ms: 6 * MINUTE_MS })
  })

  it('is drawn as a band that the lagging readings of a planned run lie in, but for a few degrees of noise', async () => {
    const { fake, view } = await read(AS_PLANNED, 8)
    const shown = await view()
    const chart = forecastChartOf(await cardNow(fake), shown, 8 * MINUTE_MS)
    for (const { run_ms, lagging } of shown.moments) {
      const at = chart?.band.find((one) => one.run_ms === run_ms)
      expect(lagging).toBeGreaterThan((at?.low ?? Number.NaN) - 4)
      expect(lagging).toBeLessThan((at?.high ?? Number.NaN) + 4)
    }
  })
})

describe('a planned release', () => {
  const [first, second] = SET.acts

  async function workable(): Promise<Run> {
    const made = await begun()
    await readAt(made.fake, made.run, 20, { a: 160, b: 150, c: 140, m: 170, n: 40 })
    await actAt(made.fake, made.run, 21, 'soaked')
    await actAt(made.fake, made.run, 22, 'workable')
    return made
  }
  const down = (pad: string, permille: number) => ({ pad, text: `to ${permille / 10} %` })

  it('makes the first step the next act, without a time: those who wedge say when', async () => {
    const { next } = await (await workable()).view()
    expect(next).toMatchObject({ act: 'turn_down', pad: first?.pad, permille: first?.permille })
    expect(next.due_ms).toBeUndefined()
  })

  it('counts the later steps from the first, as far apart as the plan has them', async () => {
    const { fake, run, view } = await workable()
    await actAt(fake, run, 26, 'turn_down', down(first?.pad ?? '', first?.permille ?? 0))
    const wait_ms = ((second?.at_s ?? 0) - (first?.at_s ?? 0)) * 1000
    const shown = await view()
    expect(shown.next).toMatchObject({ act: 'turn_down', pad: second?.pad, permille: second?.permille })
    expect(shown.next.due_ms).toBe(26 * MINUTE_MS + wait_ms)
    expect(nextWords(shown)).toMatch(/^Turn pad U[12] (down to \d+\u00a0%|off)$/)
  })

  it('moves all that follows by as much as a step was late', async () => {
    const { fake, run, view } = await workable()
    await actAt(fake, run, 26, 'turn_down', down(first?.pad ?? '', first?.permille ?? 0))
    const due_ms = (await view()).next.due_ms ?? 0
    await actAt(
      fake,
      run,
      due_ms / MINUTE_MS + 3,
      'turn_down',
      down(second?.pad ?? '', second?.permille ?? 0),
    )
    const steps = plannedSteps(SET.acts, await view())
    const [a, b] = steps.slice(2)
    expect(a?.due_ms).toBe(due_ms + 3 * MINUTE_MS + ((a?.at_s ?? 0) - (second?.at_s ?? 0)) * 1000)
    expect((b?.due_ms ?? 0) - (a?.due_ms ?? 0)).toBe(((b?.at_s ?? 0) - (a?.at_s ?? 0)) * 1000)
  })

  it('leaves off what is left for a pad that was lifted', async () => {
    const { fake, run, view } = await workable()
    await actAt(fake, run, 26, 'lift', { pad: first?.pad ?? '' })
    expect((await view()).next.pad).not.toBe(first?.pad)
  })
})
