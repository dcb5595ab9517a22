// A run of the demo's removal: setup checks, limits of what each sensor is on, contact, power.
import { describe, expect, it } from 'vitest'
import { RUN_REMARKS } from '../../src/core/live/remarks.ts'
import { heatVerdict } from '../../src/core/live/verdict.ts'
import { deviation, refOf } from '../../src/core/views/drafts.ts'
import { dueOf, isOver, type RunView, silentOf } from '../../src/core/views/heat_view.ts'
import { checksOf, openChecks } from '../../src/core/views/run_checks.ts'
import { runInputOf } from '../../src/core/views/run_rows.ts'
import { setupOf } from '../../src/ui/parts/setup_picture_geometry.ts'
import { nextWords } from '../../src/ui/phone/heat_words.ts'
import { alarmWords } from '../../src/ui/phone/run_alarm_lines.tsx'
import { cardNow, write } from './played.ts'
import {
  actAt,
  begunAt,
  heatPhone,
  MAP,
  makeStep,
  placeNow,
  playBefore,
  readAt,
  usualTo,
  zoneOf,
} from './played_heat.ts'

const codes = (view: RunView) => view.alarms.map(({ code }) => code)
const MINUTE = 60_000

describe('before switch-on', () => {
  it('shows the checks of the steps of its stage, made ones with their time', async () => {
    const fake = heatPhone()
    await playBefore(fake, 'rem-27')
    const { card, place } = await placeNow(fake, 'rem-27')
    const checks = checksOf(card, place)
    expect(checks.map(({ view }) => view.ask.id)).toEqual([
      ...['pad_gap', 'logger', 'spread', 'air'],
      ...['plastics_out', 'extraction', 'contact', 'support', 'alarm', 'stays', 'cleared'],
    ])
    expect(openChecks(checks)).toEqual([])
    expect(checks.every(({ made_ms }) => (made_ms ?? 0) > 0)).toBe(true)
  })

  it('names the open ones, which the switch key waits for', async () => {
    const fake = heatPhone()
    await playBefore(fake, 'rem-26')
    await makeStep(fake, 'rem-26', ['contact', 'cleared'])
    const { card, place } = await placeNow(fake, 'rem-27')
    expect(openChecks(checksOf(card, place)).map(({ view }) => view.ask.id)).toEqual(['contact', 'cleared'])
  })

  it('does not hold what a deviation has passed', async () => {
    const fake = heatPhone()
    const { place } = await placeNow(fake, 'rem-26')
    await write(fake, [deviation(refOf(place), 'Signed on paper.', [], true)])
    const now = await placeNow(fake, 'rem-27')
    const ofStep = checksOf(now.card, now.place).filter((one) => one.place.step.id === 'rem-26')
    expect(ofStep.every(({ passed }) => passed)).toBe(place.step.hold_countersign === '')
  })

  it('looks back no farther than the run before', async () => {
    const fake = heatPhone()
    const { card, place } = await placeNow(fake, 'rem-32')
    const steps = new Set(checksOf(card, place).map((one) => one.place.step.id))
    expect([...steps]).toEqual(['rem-30', 'rem-31'])
  })
})

describe('the setup picture', () => {
  const [upper, joint] = [zoneOf('upper'), zoneOf('joint')]

  it('cuts the zone out of the drawing, with every pad and sensor inside', () => {
    const { view, pads, sensors, drawn } = setupOf(upper, MAP)
    expect([drawn, pads.length, sensors.length]).toEqual([true, 2, 5])
    expect(
      sensors.every(({ x, y }) => x > view.x && x < view.x + view.w && y > view.y && y < view.y + view.h),
    ).toBe(true)
  })

  it('lays pads in a row as long as they are where nothing is drawn', () => {
    const { pads, drawn } = setupOf(upper, undefined)
    const [u1, u2] = pads
    expect(drawn).toBe(false)
    expect((u1?.box.w ?? 0) / (u2?.box.w ?? 1)).toBeCloseTo(310 / 230)
  })

  it('finds pads and sensors of the zones that a zone is made of', () => {
    const post = [
      { zone: 'post', id: 'L1', x: 300, y: 120, w: 26, h: 150 },
      { zone: 'post', id: 'L2', x: 300, y: 290, w: 34, h: 90 },
    ]
    const { pads, sensors } = setupOf(joint, { ...MAP, pads: [...MAP.pads, ...post] })
    expect(pads.map(({ id }) => id)).toEqual(['U1', 'U2', 'L1', 'L2'])
    expect(sensors.map(({ id }) => id)).toContain('upper_b')
  })
})

describe('sensors and their limits', () => {
  it('takes the bond alone for leading, lagging and soak', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    await readAt(fake, run, 24, { a: 153, b: 138, c: 128 })
    await readAt(fake, run, 28, { a: 154, b: 139, c: 129, m: 171, n: 56 })
    const { sensors, phase, moments } = await view()
    expect(phase).toBe('soak')
    expect(moments.map(({ lagging }) => lagging)).toEqual([128, 129])
    expect(sensors.filter(({ is }) => is !== '').map(({ id, is }) => [id, is])).toEqual([
      ['a', 'leading'],
      ['c', 'lagging'],
    ])
  })

  it('judges metal and neighbour by limits of their own, and rings', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    await readAt(fake, run, 29, { a: 176, b: 150, c: 133, m: 194, n: 84 })
    const shown = await view()
    expect(shown.alarms).toEqual([
      { code: 'over', of: 'metal', sensor: 'm', by: 4 },
      { code: 'over', of: 'neighbour', sensor: 'n', by: 4 },
    ])
    expect(isOver(shown)).toBe(true)
    expect(shown.alarms.map((alarm) => alarmWords(shown, alarm))[0]).toContain('switch off and ask')
  })

  it('advises when the bond rises faster than the method allows', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    await readAt(fake, run, 5, { a: 60, b: 60, c: 60, m: 70, n: 25 })
    await readAt(fake, run, 7, { a: 84, b: 78, c: 76, m: 99, n: 26 })
    const shown = await view()
    expect(shown.alarms).toEqual([{ code: 'ramp', sensor: 'a', rate: 12, limit: 10 }])
    expect(isOver(shown)).toBe(false)
  })

  it('asks to read again what no joint can do', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    await readAt(fake, run, 20, { a: 147, b: 131, c: 121, m: 164, n: 51 })
    await readAt(fake, run, 20.5, { a: 147, b: 31, c: 121, m: 164, n: 51 })
    expect((await view()).alarms).toContainEqual({
      ...{ code: 'jump', sensor: 'b', from: 131, to: 31 },
      run_ms: 20.5 * MINUTE,
    })
  })

  it('names the sensors that nobody reads', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    await usualTo(fake, run, 24)
    expect(silentOf(await view(), 28 * MINUTE)).toEqual([])
    expect(silentOf(await view(), 30 * MINUTE).map(({ id }) => id)).toEqual(['a', 'b', 'c', 'm', 'n'])
  })
})

describe('a pad that lifts', () => {
  const LIFTING = { a: 96, b: 52, c: 92, m: 120, n: 27 }

  it('asks whether a pad is at its setpoint while one bond sensor stays far behind', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    await readAt(fake, run, 4.5, LIFTING)
    expect(await view()).toMatchObject({
      alarms: [{ code: 'behind', sensor: 'b', by: 40 }],
      next: { act: 'read' },
    })
  })

  it('says contact, not wait longer, once the pad is said to be there; pressing it on is the act', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    await actAt(fake, run, 4, 'remark', { pad: 'U2', text: RUN_REMARKS.setpoint })
    await readAt(fake, run, 4.5, LIFTING)
    const shown = await view()
    expect(shown.alarms).toEqual([{ code: 'contact', pads: ['U2'], sensor: 'b', by: 40 }])
    expect(nextWords(shown)).toBe('Press pad U2 on again')
    expect(dueOf(shown, 5 * MINUTE)).toBeUndefined()
    expect(alarmWords(shown, shown.alarms[0] as never)).toContain('waiting does not help')
  })

  it('is quiet once it was clamped on again, until the next readings', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    await actAt(fake, run, 4, 'remark', { pad: 'U2', text: RUN_REMARKS.setpoint })
    await readAt(fake, run, 4.5, LIFTING)
    await actAt(fake, run, 6, 'remark', { pad: 'U2', text: RUN_REMARKS.reclamped })
    expect(codes(await view())).toEqual([])
    await readAt(fake, run, 9, { a: 120, b: 88, c: 112, m: 140, n: 33 })
    expect(codes(await view())).not.toContain('contact')
    expect((await view()).run.soak_ms).toBe(0)
  })

  it('does not count a soak minute before the lagging sensor is at the minimum', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    await readAt(fake, run, 20, { a: 150, b: 110, c: 140, m: 160, n: 40 })
    await readAt(fake, run, 24, { a: 152, b: 124, c: 142, m: 162, n: 42 })
    await readAt(fake, run, 28, { a: 153, b: 126, c: 143, m: 163, n: 43 })
    await readAt(fake, run, 32, { a: 153, b: 127, c: 143, m: 163, n: 43 })
    expect((await view()).run.soak_ms).toBe(4 * MINUTE)
  })
})

describe('power that goes', () => {
  it('is said until it is back; the soak resumes and the verdict says gap', async () => {
    const { fake, run, view } = await begunAt('rem-27')
    await usualTo(fake, run, 34)
    await actAt(fake, run, 35, 'remark', { text: RUN_REMARKS.power_gone })
    await readAt(fake, run, 37, { a: 138, b: 127, c: 118, m: 150, n: 60 })
    expect(codes(await view())).toContain('power')
    expect(await view()).toMatchObject({ short_by: 7 })
    await actAt(fake, run, 44, 'remark', { text: RUN_REMARKS.power_back })
    for (const minute of [41, 45, 49, 53])
      await readAt(fake, run, minute, { a: 150, b: 138, c: minute < 45 ? 119 : 130, m: 160, n: 60 })
    expect(codes(await view())).not.toContain('power')
    const card = await cardNow(fake)
    const shown = await view()
    const input = runInputOf(card, shown.run)
    const lines = input && heatVerdict(input, shown.ask.settings).lines
    expect(lines?.find(({ code }) => code === 'soak_gap')).toMatchObject({
      standing: 'deviation',
      values: [{ value: 110 }, { value: 0 }],
    })
  })
})
