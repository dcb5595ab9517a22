// Scenes of a heat run with its plan: forecast, what the readings may look like, the release's steps, and no plan.
import rear_frame from '../../../../seed_data/methods/rear_frame.svg?raw'
import { downTo } from '../../../src/core/live/remarks.ts'
import { paths } from '../../../src/ui/phone/router.ts'
import { type FakePhone, JOB } from '../fake_phone.ts'
import { AS_PLANNED, type PlanHere, plannedPhone, readLike, SET, type Truth } from '../planned_heat.ts'
import { actAt, goTo, METHODS, playBefore, readAt, switchOnAt } from '../played_heat.ts'

type Scene = () => Promise<{ fake: FakePhone; path: string }>
type Played = (fake: FakePhone, run: string) => Promise<unknown>

const DRAWINGS = Object.fromEntries(METHODS.map(({ drawings }) => [drawings.part ?? '', rear_frame]))

async function planned(minute: number, more: Played = async () => {}, is: PlanHere = 'here') {
  const fake = plannedPhone(is, DRAWINGS)
  await playBefore(fake, 'rem-27')
  const run = await switchOnAt(fake, 'rem-27')
  await more(fake, run)
  goTo(fake, run, minute)
  return { fake, path: paths.run(JOB, run) }
}

const read = (truth: Truth, until_min: number, now_min = until_min + 1) =>
  planned(now_min, (fake, run) => readLike(fake, run, truth, until_min))

async function workable(fake: FakePhone, run: string) {
  await readLike(fake, run, AS_PLANNED, 42)
  await actAt(fake, run, 42.5, 'soaked')
  await actAt(fake, run, 43, 'workable')
}

async function stepsDone(fake: FakePhone, run: string, count: number) {
  await workable(fake, run)
  const begun_s = SET.acts[0]?.at_s ?? 0
  for (const { pad, permille, at_s } of SET.acts.slice(0, count))
    await actAt(fake, run, 47 + (at_s - begun_s) / 60, 'turn_down', { pad, text: downTo(permille) })
}

export const FORECAST_SCENES: Record<string, Scene> = {
  forecast_before: async () => {
    const fake = plannedPhone('here', DRAWINGS)
    await playBefore(fake, 'rem-27')
    return { fake, path: paths.ask(JOB, 'removal', 'rem-27', 'run') }
  },
  forecast_none: () => planned(3, undefined, 'none'),
  forecast_not_here: () => planned(3, undefined, 'not_here'),
  forecast_no_reading: () => planned(2),
  forecast_shown: () => read(AS_PLANNED, 12),
  forecast_late: () => read({ row: 1, column: 3 }, 16),
  forecast_workable: () => read(AS_PLANNED, 26, 27),
  forecast_pad_lifting: () => read({ ...AS_PLANNED, lifted: ['U2', 8] }, 14),
  forecast_sensor_off: () => read({ ...AS_PLANNED, off: ['b', 8] }, 14),
  forecast_draught: () => read({ row: 2, column: 4, steeper: -2 }, 20),
  forecast_stack_up: () => read({ row: 4, column: 0, steeper: 4 }, 12),
  forecast_release_first: () => planned(44, workable),
  forecast_release_next: () => planned(48, (fake, run) => stepsDone(fake, run, 1)),
  forecast_released: () =>
    planned(58, async (fake, run) => {
      await stepsDone(fake, run, SET.acts.length)
      await readAt(fake, run, 55, { a: 140, b: 150, c: 118, m: 146, n: 66 })
    }),
}
