// What a pinned plan says on the phone: when workable, what the readings look like, the release step by step.
import { describe, expect, it } from 'vitest'
import { downTo, RUN_REMARKS, sensorFixed } from '../../src/core/live/remarks.ts'
import type { RunRow } from '../../src/core/live/verdict.ts'
import { forecastChartOf } from '../../src/core/views/forecast_chart.ts'
import { toldOf } from '../../src/core/views/forecast_told.ts'
import { forecastOf } from '../../src/core/views/forecast_view.ts'
import { plannedSteps } from '../../src/core/views/planned_release.ts'
import type { ActRow } from '../../src/core/views/run_rows.ts'
import { nextWords } from '../../src/ui/phone/heat_words.ts'
import { AS_PLANNED, type PlanHere, plannedPhone, readLike, SET, type Truth } from './planned_heat.ts'
import { cardNow } from './played.ts'
import { actAt, type Begun, begunAt, readAt } from './played_heat.ts'

const MINUTE_MS = 60_000

type Run = Begun & { told: (minute: number) => Promise<unknown> }

async function begun(is: PlanHere = 'here'): Promise<Run> {
  const made = await begunAt('rem-27', plannedPhone(is))
  const { fake, view } = made
  const told = async (minute: number) => toldOf(await cardNow(fake), await view(), minute * MINUTE_MS)
  return { ...made, told }
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
    const { view } = await read(AS_PLANNED, 12)
    const { fit } = (await view()).forecast ?? {}
    const planned_s = SET.answer.workable_s ?? 0
    expect(Math.abs((fit?.workable_s ?? 0) / planned_s - 1)).toBeLessThan(0.15)
    expect(fit?.from_s).toBeLessThan(planned_s)
    expect(fit?.until_s).toBeGreaterThan(planned_s)
    expect(fit?.looks_like).toBe('')
  })

  it('counts down in whole minutes, and says workable once its time has come', async () => {
    const { told } = await read(AS_PLANNED, 12)
    expect(await told(12)).toMatchObject({ is: 'in' })
    expect(await told(30)).toMatchObject({ is: 'now' })
  })

  it('moves the plan’s window and its pads-on time with the forecast', async () => {
    const told = (await (await read({ row: 1, column: 3 }, 16)).told(16)) as { times: Record<string, number> }
    const { workable_ms = 0, window_ms = 0, pads_on_ms = 0 } = told.times
    const later_ms = workable_ms - (SET.answer.workable_s ?? 0) * 1000
    expect(later_ms).toBeGreaterThan(MINUTE_MS)
    expect(window_ms).toBe((SET.answer.window_until_s ?? 0) * 1000 + later_ms)
    expect(pads_on_ms).toBe((SET.answer.heat_until_s ?? 0) * 1000 + later_ms)
  })

  it('leads the countdown to the soak', async () => {
    const before = (await (await begun()).view()).next.due_ms ?? 0
    const slow = (await (await read({ row: 1, column: 3 }, 16)).view()).next.due_ms ?? 0
    expect(slow).toBeGreaterThan(before)
  })

  it('takes of a logger’s thousands sixty of each sensor at most, the newest among them', () => {
    const rows = Array.from({ length: 1000 }, (_, i) => ({
      ...{ sensor: i % 2 ? 'a' : 'b', of: 'bond', run_ms: (i + 1) * 1000, value: 20 + Math.round(i / 20) },
    })) as readonly RunRow[]
    const settings = { decimals: 0, lagging_min: 125 }
    expect(forecastOf(SET, { rows, acts: [], settings }).counted).toBe(2 * 56)
  })

  it('promises no soak where no member fits: the sensors are read again within the method’s time', async () => {
    const { next } = await (await read({ row: 2, column: 4, steeper: -2 }, 20)).view()
    expect(next).toMatchObject({ act: 'read', leads: '', due_ms: 25 * MINUTE_MS })
  })

  it('names a lifted pad, and counts only what is read after it was pressed on again', async () => {
    const { fake, run, told, view } = await read({ ...AS_PLANNED, lifted: ['U2', 8] }, 14)
    expect(await told(14)).toMatchObject({ is: 'looks', looks_like: 'pad_lifting', names: 'U2' })
    expect((await view()).next).toMatchObject({ act: 'remark', pad: 'U2', leads: 'contact' })
    await actAt(fake, run, 14.5, 'remark', { pad: 'U2', text: RUN_REMARKS.reclamped })
    expect(await told(14.6)).toMatchObject({ is: 'planned' })
    expect((await view()).forecast).toMatchObject({ counted: 0, since_ms: 14.5 * MINUTE_MS })
  })

  it('names a sensor that came off, forecasts without it, and takes it in again once it is fastened', async () => {
    const { fake, run, told } = await read({ ...AS_PLANNED, off: ['b', 8] }, 14)
    expect(await told(14)).toMatchObject({ is: 'looks', looks_like: 'sensor_off', names: 'b', minutes: {} })
    await actAt(fake, run, 14.5, 'remark', { text: sensorFixed('b') })
    await readLike(fake, run, AS_PLANNED, 18, 16)
    expect(await told(18)).toMatchObject({ is: 'in' })
  })

  it('asks about a draught or another stack-up where no member fits', async () => {
    const draught = await read({ row: 2, column: 4, steeper: -2 }, 20)
    expect(await draught.told(20)).toMatchObject({ is: 'looks', looks_like: 'draught' })
    const other = await read({ row: 4, column: 0, steeper: 4 }, 12)
    expect(await other.told(12)).toMatchObject({ is: 'looks', looks_like: 'wrong_stack_up' })
  })

  it('says nothing from the moment that the power went', async () => {
    const { fake, run, told } = await read(AS_PLANNED, 5)
    await actAt(fake, run, 6, 'remark', { text: RUN_REMARKS.power_gone })
    expect(await told(8)).toEqual({ is: 'power', gone_ms: 6 * MINUTE_MS })
  })

  it('is drawn as a band that the lagging readings of a planned run lie in, but for a few degrees of noise', async () => {
    const { fake, view } = await read(AS_PLANNED, 12)
    const shown = await view()
    const chart = forecastChartOf(await cardNow(fake), shown, 12 * MINUTE_MS)
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

  it('makes the first step the next act, without a time: those who wedge say when', async () => {
    const { next } = await (await workable()).view()
    expect(next).toMatchObject({ act: 'turn_down', pad: first?.pad, permille: first?.permille })
    expect(next.due_ms).toBeUndefined()
  })

  it('counts the next step from the first, as far apart as the plan has them', async () => {
    const { fake, run, view } = await workable()
    await actAt(fake, run, 26, 'turn_down', { pad: first?.pad ?? '', text: downTo(first?.permille ?? 0) })
    const wait_ms = ((second?.at_s ?? 0) - (first?.at_s ?? 0)) * 1000
    const shown = await view()
    expect(shown.next).toMatchObject({ act: 'turn_down', pad: second?.pad, permille: second?.permille })
    expect(shown.next.due_ms).toBe(26 * MINUTE_MS + wait_ms)
    expect(nextWords(shown)).toBe(`Turn pad ${second?.pad} off`)
  })

  const STEPS = [
    { at_s: 1000, pad: 'A', act: 'turn_down', permille: 750 },
    { at_s: 1120, pad: 'B', act: 'turn_down', permille: 800 },
    { at_s: 1240, pad: 'A', act: 'turn_down', permille: 500 },
    { at_s: 1400, pad: 'B', act: 'off', permille: 0 },
  ] as const
  const turned = (pad: string, at_s: number): ActRow => ({
    ...{ act: 'turn_down', run: '', pad, run_ms: at_s * 1000, run_doubt: false, typed_time: false },
    ...{ text: '', hash: `${pad}${at_s}` },
  })
  const dueS = (acts: readonly ActRow[], lifted: readonly string[] = []) =>
    plannedSteps(STEPS, { run: { lifted }, acts }).map(({ due_ms, done_ms }) =>
      done_ms === undefined ? due_ms && due_ms / 1000 : 'done',
    )

  it('moves all that follows by as much as a step was late', () => {
    expect(dueS([])).toEqual([undefined, undefined, undefined, undefined])
    expect(dueS([turned('A', 1100)])).toEqual(['done', 1220, 1340, 1500])
    expect(dueS([turned('A', 1100), turned('B', 1400)])).toEqual(['done', 'done', 1520, 1680])
    expect(dueS([turned('A', 1100), turned('B', 1400), turned('A', 1520)])).toEqual([
      ...['done', 'done', 'done'],
      1680,
    ])
  })

  it('is drawn to the end of a run that is over, not to now', async () => {
    const { fake, run, view } = await workable()
    await actAt(fake, run, 26, 'turn_down', { pad: first?.pad ?? '', text: downTo(first?.permille ?? 0) })
    await actAt(fake, run, 60, 'off')
    await actAt(fake, run, 80, 'cold')
    const chart = forecastChartOf(await cardNow(fake), await view(), 80 * MINUTE_MS)
    expect(chart?.until_ms).toBe(80 * MINUTE_MS)
  })

  it('leaves off what is left for a pad that was lifted', async () => {
    const { fake, run, view } = await workable()
    await actAt(fake, run, 26, 'lift', { pad: first?.pad ?? '' })
    expect((await view()).next.pad).not.toBe(first?.pad)
  })
})
