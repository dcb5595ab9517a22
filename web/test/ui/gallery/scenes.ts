// One scene for each screen and state that a user can reach.
import { NIL_PERSON } from '../../../src/core/entries.ts'
import * as drafts from '../../../src/core/views/drafts.ts'
import { paths } from '../../../src/ui/phone/router.ts'
import { ADA, authorOf, MARA, PIM } from '../fake_people.ts'
import { type FakePhone, JOB } from '../fake_phone.ts'
import {
  answer,
  at,
  playTo,
  read,
  rivetsOut,
  shoot,
  spinePhone,
  switchOn,
  tickStep,
  write,
} from '../played.ts'

type Scene = () => Promise<{ fake: FakePhone; path: string }>

const ask = (step: string, id: string) => paths.ask(JOB, 'spine', step, id)

async function played(step: string, path = paths.card(JOB), more?: (fake: FakePhone) => Promise<void>) {
  const fake = spinePhone()
  await playTo(fake, step)
  await more?.(fake)
  return { fake, path }
}

async function running(
  seconds: number,
  readings: readonly (readonly [number, readonly number[]])[],
  more?: (fake: FakePhone, run: string) => Promise<void>,
) {
  const fake = spinePhone()
  await playTo(fake, 'spn-09')
  const run = await switchOn(fake)
  for (const [at_s, values] of readings) await read(fake, run, at_s * 1000, values)
  await more?.(fake, run)
  const onSince =
    fake.services.device.clock.now().at_ms -
    (fake.entries().find((one) => one.entry.hash === run)?.entry.at_ms ?? 0)
  fake.pass(seconds * 1000 - onSince)
  return { fake, path: paths.run(JOB, run) }
}

const HOT = [131, 128, 158]
const time = { run_ms: 200_000, run_doubt: false, typed_time: false }

export const SCENES: Record<string, Scene> = {
  empty: async () => {
    const fake = spinePhone({ jobs: false })
    fake.set.status({ state: 'offline' })
    return { fake, path: '/' }
  },
  jobs: () => played('spn-05', '/'),
  card: () => played('spn-04'),
  first: () => played('spn-01'),
  photo_left: () => played('spn-01', paths.card(JOB), (fake) => answer(fake, 'spn-01')),
  held: () => played('spn-02'),
  held_other: () => played('spn-02', paths.step(JOB, 'spine', 'spn-04')),
  steps: () => played('spn-05', paths.steps(JOB)),
  text: () => played('spn-01', ask('spn-01', 'vin_read')),
  choice: () => played('spn-01', ask('spn-01', 'vin_compared')),
  reading: () => played('spn-04', ask('spn-04', 'level_along')),
  points: () => played('spn-03', ask('spn-03', 'voltage')),
  lot: () => played('spn-07', ask('spn-07', 'cleaner')),
  photo: () => played('spn-04', ask('spn-04', 'stands')),
  photo_denied: async () => {
    const scene = await played('spn-04', ask('spn-04', 'stands'))
    scene.fake.set.camera('denied')
    return scene
  },
  tally: () =>
    played('spn-05', ask('spn-05', 'header'), async (fake) => {
      await rivetsOut(fake, ['H1'])
      await write(fake, [drafts.tallyState({ position: 'H2', generation: 0 }, 'mandrel_out')])
      await write(fake, [
        { kind: 'tally', body: { position: 'H3', generation: 0, mark: 'damaged_hole', piece: '', lost: '' } },
      ])
      await write(fake, [
        { kind: 'tally', body: { position: 'H4', generation: 0, mark: 'lost', piece: 'shank', lost: '' } },
      ])
    }),
  compute: () => played('spn-06', ask('spn-06', 'accounted')),
  compute_short: () =>
    played('spn-06', ask('spn-06', 'accounted'), async (fake) => {
      await write(fake, [
        { kind: 'tally', body: { position: 'H4', generation: 0, mark: 'lost', piece: 'shank', lost: '' } },
      ])
    }),
  sign: () => played('spn-03', ask('spn-03', 'seen_dead'), (fake) => answer(fake, 'spn-03')),
  before_run: () => played('spn-09', ask('spn-09', 'run')),
  run_ramp: () => running(24, []),
  run_soak: () => running(95, [[62, HOT]]),
  run_due: () =>
    running(171, [
      [62, HOT],
      [118, HOT],
    ]),
  run_gap: () => running(130, [[62, HOT]]),
  run_soaked: () =>
    running(160, [
      [62, HOT],
      [110, HOT],
      [153, HOT],
    ]),
  run_release: () =>
    running(
      240,
      [
        [62, HOT],
        [110, HOT],
        [153, HOT],
      ],
      async (fake, run) => {
        await write(fake, [drafts.heatAct(run, 'soaked', { ...time, run_ms: 155_000 })])
        await write(fake, [drafts.heatAct(run, 'workable', { ...time, run_ms: 170_000 })])
      },
    ),
  run_readings: async () => {
    const scene = await running(95, [[62, HOT]])
    return { ...scene, path: `${scene.path}/readings` }
  },
  part_zone: async () => {
    const scene = await running(
      240,
      [
        [62, HOT],
        [110, HOT],
        [153, HOT],
      ],
      async (fake, run) => {
        await write(fake, [drafts.heatAct(run, 'soaked', { ...time, run_ms: 155_000 })])
        await write(fake, [drafts.heatAct(run, 'workable', { ...time, run_ms: 170_000 })])
      },
    )
    return { ...scene, path: paths.card(JOB) }
  },
  due_band: async () => {
    const scene = await running(171, [
      [62, HOT],
      [118, HOT],
    ])
    return { ...scene, path: paths.write(JOB, 'spine', 'spn-11', 'note') }
  },
  deviation: () => played('spn-04', paths.write(JOB, 'spine', 'spn-04', 'deviation')),
  already: () => played('spn-02', paths.write(JOB, 'spine', 'spn-02', 'already_done')),
  na: () => played('spn-04', paths.write(JOB, 'spine', 'spn-04', 'not_applicable')),
  records: () =>
    played('spn-04', paths.records(JOB), async (fake) => {
      const mine = fake.entries().filter((one) => one.entry.by === MARA.id)
      await write(fake, [drafts.strike(mine[1]?.entry.hash ?? '', 'Read from the papers by mistake')])
      fake.set.refused([
        {
          hash: 'ab'.repeat(32),
          job: JOB,
          text: '{"broken":true}',
          fate: {
            fate: 'refused',
            code: 'broken_body',
            message: 'value: 2.5 is no whole number; whole numbers are allowed',
            field: 'value',
          },
          refused_ms: 0,
          seen: false,
        },
      ])
      fake.set.status({ refused: 1 })
    }),
  strike: async () => {
    const scene = await played('spn-04')
    const mine = scene.fake.entries().filter((one) => one.entry.by === MARA.id)
    return { ...scene, path: paths.strike(JOB, mine[2]?.entry.hash ?? '') }
  },
  hand_in: () => played('spn-04', paths.handIn),
  self: () => played('spn-04', paths.self),
  update: async () => {
    const scene = await played('spn-04', paths.self)
    scene.fake.set.update(true)
    return scene
  },
  wanted: async () => {
    const fake = spinePhone({ person: PIM })
    await playTo(fake, 'spn-04')
    await shoot(fake, 'spn-04', 'stands')
    return { fake, path: paths.wanted(JOB) }
  },
  reader_card: async () => {
    const fake = spinePhone({ person: PIM })
    await playTo(fake, 'spn-04')
    return { fake, path: paths.card(JOB) }
  },
  sent_back: async () => {
    const fake = spinePhone()
    await answer(fake, 'spn-01')
    const text = fake.entries().find((one) => one.entry.kind === 'text')?.entry.hash ?? ''
    fake.brought(
      { kind: 'send_back', body: { hashes: [text], remark: 'This is not the whole number' } },
      authorOf(ADA),
    )
    return { fake, path: paths.card(JOB) }
  },
  done_card: async () => {
    const fake = spinePhone()
    await playTo(fake, 'spn-09')
    for (const step of ['spn-09', 'spn-10', 'spn-11', 'spn-12']) await tickStep(fake, step)
    return { fake, path: paths.card(JOB) }
  },
  shared_who: async () => {
    const scene = await played('spn-04', '/')
    scene.fake.set.identity({ person: NIL_PERSON, roles: [], qualifications: [] })
    return scene
  },
  shared_card: async () => {
    const scene = await played('spn-04')
    scene.fake.set.identity({ person: NIL_PERSON, roles: [], qualifications: [] })
    sessionStorage.setItem('works_now', `${MARA.id} picked`)
    return scene
  },
  offline: async () => {
    const scene = await played('spn-05', '/')
    await scene.fake.services.sync.setShopNetwork(false)
    return scene
  },
  full: async () => {
    const scene = await played('spn-04')
    scene.fake.set.health('full')
    scene.fake.breakStore('full')
    return scene
  },
  refused: async () => {
    const scene = await played('spn-04', '/records')
    const fate = {
      fate: 'refused',
      code: 'broken_body',
      message: 'value: 12.5, whole numbers only',
      field: 'body.value',
    } as const
    const { entry, text } = scene.fake.entries().at(-1) ?? {}
    scene.fake.set.refused([
      {
        hash: entry?.hash ?? '',
        job: JOB,
        text: text ?? '',
        fate,
        refused_ms: entry?.at_ms ?? 0,
        seen: false,
      },
    ])
    scene.fake.set.status({ refused: 1 })
    return scene
  },
  revoked: async () => {
    const scene = await played('spn-04')
    scene.fake.set.identity({ state: 'revoked' })
    scene.fake.set.status({ state: 'revoked' })
    return scene
  },
  lost: async () => {
    const scene = await played('spn-04')
    scene.fake.set.health('lost')
    return scene
  },
  outside: async () => ({ ...(await played('spn-04', ask('spn-04', 'level_along'))), press: ['9'] }),
  outside_reason: async () => ({
    ...(await played('spn-04', ask('spn-04', 'level_along'))),
    press: ['9', 'Record'],
  }),
  not_there: () => played('spn-04', '/job/none'),
  not_there_yet: () =>
    played('spn-04', '/job/none', async (fake) => fake.set.status({ state: 'syncing', heard_ms: 0 })),
  no_step: async () => {
    const scene = await played('spn-04')
    await at(scene.fake, 'spn-04')
    return { ...scene, path: paths.step(JOB, 'spine', 'none') }
  },
}
