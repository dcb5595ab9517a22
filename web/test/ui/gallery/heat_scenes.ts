// Scenes of a heat run of the demo's removal, from before switch-on to its verdict.

import rear_frame from '../../../../seed_data/methods/rear_frame.svg?raw'
import { RUN_REMARKS } from '../../../src/core/live/remarks.ts'
import { paths } from '../../../src/ui/phone/router.ts'
import { type FakePhone, JOB } from '../fake_phone.ts'
import {
  actAt,
  goTo,
  heatPhone,
  METHODS,
  makeStep,
  playBefore,
  readAt,
  switchOnAt,
  usualTo,
} from '../played_heat.ts'

/** With the drawing that the methods name. */
const drawnPhone = () =>
  heatPhone({
    drawings: Object.fromEntries(METHODS.map(({ drawings }) => [drawings.part ?? '', rear_frame])),
  })

type Scene = () => Promise<{ fake: FakePhone; path: string }>
type Played = (fake: FakePhone, run: string) => Promise<unknown>

/** Another phone, which has told the office of the run. */
const OTHER_PHONE = '20000000-0000-4000-8000-000000000007'
/** Of a zone's sensors against its coldest one. */
const SPREAD = [4, 2, 0, 7, -28] as const
const RUN_ASK = paths.ask(JOB, 'removal', 'rem-27', 'run')

/** Switched on and played; shown at this minute of the run. */
async function heated(minute: number, more: Played, path?: (run: string) => string) {
  const fake = drawnPhone()
  await playBefore(fake, 'rem-27')
  const run = await switchOnAt(fake, 'rem-27')
  await more(fake, run)
  goTo(fake, run, minute)
  return { fake, path: path?.(run) ?? paths.run(JOB, run) }
}

async function soaked(fake: FakePhone, run: string) {
  await usualTo(fake, run, 39)
  await actAt(fake, run, 39.5, 'soaked')
}

async function workable(fake: FakePhone, run: string) {
  await soaked(fake, run)
  await actAt(fake, run, 40, 'workable')
}

async function turnedDown(fake: FakePhone, run: string) {
  await workable(fake, run)
  await actAt(fake, run, 46, 'turn_down', { pad: 'U1' })
  await readAt(fake, run, 48, { a: 148, b: 139, c: 130, m: 160, n: 62 })
}

async function cooled(fake: FakePhone, run: string) {
  await turnedDown(fake, run)
  await actAt(fake, run, 54, 'turn_down', { pad: 'U2' })
  await readAt(fake, run, 60, { a: 98, b: 102, c: 97, m: 101, n: 52 })
  await readAt(fake, run, 66, { a: 57, b: 60, c: 56, m: 58, n: 41 })
}

async function over(fake: FakePhone, run: string) {
  await cooled(fake, run)
  for (const pad of ['U1', 'U2']) await actAt(fake, run, 67, 'lift', { pad })
  await actAt(fake, run, 68, 'off')
  await readAt(fake, run, 76, { a: 39, b: 41, c: 38, m: 40, n: 33 })
  await actAt(fake, run, 77, 'cold')
}

/** Cold by its readings, and nobody wrote down that a pad was turned down, lifted or off. */
async function overUnrecorded(fake: FakePhone, run: string) {
  await workable(fake, run)
  await readAt(fake, run, 60, { a: 98, b: 102, c: 97, m: 101, n: 52 })
  await readAt(fake, run, 76, { a: 39, b: 41, c: 38, m: 40, n: 33 })
  await actAt(fake, run, 77, 'cold')
}

export const HEAT_SCENES: Record<string, Scene> = {
  heat_before: async () => {
    const fake = drawnPhone()
    await playBefore(fake, 'rem-27')
    return { fake, path: RUN_ASK }
  },
  heat_before_open: async () => {
    const fake = drawnPhone()
    await playBefore(fake, 'rem-26')
    await makeStep(fake, 'rem-26', ['contact', 'stays', 'cleared'])
    return { fake, path: RUN_ASK }
  },
  heat_before_plain: async () => {
    const fake = heatPhone({ mapped: false })
    await playBefore(fake, 'rem-27')
    return { fake, path: RUN_ASK }
  },
  heat_ramp: () => heated(12, (fake, run) => usualTo(fake, run, 10)),
  heat_contact: () =>
    heated(5, async (fake, run) => {
      await actAt(fake, run, 4, 'remark', { pad: 'U2', text: RUN_REMARKS.setpoint })
      await readAt(fake, run, 4.5, { a: 96, b: 52, c: 92, m: 120, n: 27 })
    }),
  heat_behind: () => heated(5, (fake, run) => readAt(fake, run, 4.5, { a: 96, b: 52, c: 92, m: 120, n: 27 })),
  heat_soak: () => heated(31, (fake, run) => usualTo(fake, run, 29)),
  heat_over_metal: () =>
    heated(31, async (fake, run) => {
      await usualTo(fake, run, 24)
      await readAt(fake, run, 29, { a: 176, b: 150, c: 133, m: 194, n: 84 })
    }),
  heat_gap: () => heated(36, (fake, run) => usualTo(fake, run, 29)),
  heat_power: () =>
    heated(38, async (fake, run) => {
      await usualTo(fake, run, 34)
      await actAt(fake, run, 35, 'remark', { text: RUN_REMARKS.power_gone })
      await readAt(fake, run, 37, { a: 138, b: 127, c: 118, m: 150, n: 60 })
    }),
  heat_soaked: () => heated(40, (fake, run) => usualTo(fake, run, 39)),
  heat_workable: () => heated(41, soaked),
  heat_turn_down: () => heated(44, workable),
  heat_wedging: () => heated(44, workable, () => paths.step(JOB, 'removal', 'rem-28')),
  heat_next_pad: () => heated(49, turnedDown),
  heat_pad_due: () => heated(54, turnedDown),
  heat_pad_due_wedging: () => heated(54, turnedDown, () => paths.ask(JOB, 'removal', 'rem-28', 'parted')),
  heat_lift: () => heated(67, cooled),
  heat_cooling: () =>
    heated(70, async (fake, run) => {
      await cooled(fake, run)
      for (const pad of ['U1', 'U2']) await actAt(fake, run, 67, 'lift', { pad })
      await actAt(fake, run, 68, 'off')
    }),
  heat_over: () => heated(78, over),
  heat_over_unrecorded: () => heated(78, overUnrecorded),
  heat_aborted: () =>
    heated(14, async (fake, run) => {
      await usualTo(fake, run, 10)
      await actAt(fake, run, 12, 'abort', { text: 'Smoke or smell' })
    }),
  heat_second_phone: async () => {
    const fake = drawnPhone()
    await playBefore(fake, 'rem-27')
    const run = await switchOnAt(fake, 'rem-27', OTHER_PHONE)
    await usualTo(fake, run, 29)
    goTo(fake, run, 31)
    return { fake, path: paths.run(JOB, run) }
  },
  heat_cure: async () => {
    const fake = drawnPhone()
    const run = await switchOnAt(fake, 'fit-27')
    const warm = (low: number) =>
      Object.fromEntries(
        ['upper', 'post'].flatMap((zone) =>
          ['a', 'b', 'c', 'm', 'n'].map((id, i) => [`${zone}_${id}`, low + (SPREAD[i] ?? 0)]),
        ),
      )
    for (const [at, low] of [
      [30, 52],
      [34, 57],
      [38, 58],
      [42, 59],
    ] as const)
      await readAt(fake, run, at, warm(low), 'fit-27')
    goTo(fake, run, 44)
    return { fake, path: paths.run(JOB, run) }
  },
  heat_readings: () =>
    heated(
      31,
      (fake, run) => usualTo(fake, run, 29),
      (run) => paths.runReadings(JOB, run),
    ),
  heat_release_step: () => heated(44, workable, () => paths.ask(JOB, 'removal', 'rem-29', 'release')),
  heat_not_begun: async () => {
    const fake = drawnPhone()
    return { fake, path: paths.ask(JOB, 'removal', 'rem-29', 'release') }
  },
}
