// Scenes of the technician's card on the two methods of the rear frame.
import { askOf } from '../../../src/core/views/card.ts'
import * as drafts from '../../../src/core/views/drafts.ts'
import { paths } from '../../../src/ui/phone/router.ts'
import { authorOf, OSKAR } from '../fake_people.ts'
import { type FakePhone, JOB } from '../fake_phone.ts'
import {
  answerStep,
  frameAt,
  framePhone,
  own,
  photoDraft,
  playFrameTo,
  playStep,
  signed,
} from '../played_frame.ts'

type Scene = () => Promise<{ fake: FakePhone; path: string }>

const DAY_MS = 86_400_000
const OTHER_PHONE = '20000000-0000-4000-8000-000000000002'
const methodOf = (step: string) => (step.startsWith('rem') ? 'removal' : 'fitting')
const step = (id: string) => paths.step(JOB, methodOf(id), id)
const ask = (id: string, of: string, point = '') => paths.ask(JOB, methodOf(id), id, of, point)

async function before(
  id: string,
  path = paths.card(JOB),
  more?: (fake: FakePhone) => Promise<unknown>,
  options: Parameters<typeof framePhone>[0] = {},
) {
  const fake = framePhone(options)
  await playFrameTo(fake, id)
  await more?.(fake)
  return { fake, path }
}

async function readAt(fake: FakePhone, id: string, of: string, values: Readonly<Record<string, number>>) {
  for (const [point, value] of Object.entries(values)) {
    const { card, place } = await frameAt(fake, id)
    const found = askOf(place, of)
    if (found?.kind !== 'reading') throw new Error(`fixture: ${id}.${of} is no reading`)
    await own(fake, [drafts.reading(card, place, found, point, value)])
  }
}

async function chosen(fake: FakePhone, id: string, of: string, option: string) {
  const { card, place } = await frameAt(fake, id)
  const found = askOf(place, of)
  if (found?.kind !== 'choice') throw new Error(`fixture: ${id}.${of} is no choice`)
  await own(fake, [drafts.choice(card, place, found, option)])
}

/** Moment 4: offline, both answer rem-14, one 'none', one 'scratch in the coating'. */
async function twoSaid(fake: FakePhone) {
  const { card, place } = await frameAt(fake, 'rem-14')
  const found = askOf(place, 'marks')
  if (found?.kind !== 'choice') throw new Error('fixture: rem-14.marks is no choice')
  const scratch = drafts.choice(card, place, found, 'scratch_in_the_coating')
  await own(fake, [drafts.choice(card, place, found, 'none')])
  await own(fake, [drafts.tick(card, place, '')])
  fake.pass(540_000)
  fake.brought(scratch, authorOf(OSKAR), OTHER_PHONE)
  fake.brought(drafts.tick(card, place, ''), authorOf(OSKAR), OTHER_PHONE)
}

/** Moment 12: gap g5 typed 35 for 3.5 and countersigned, then typed again. */
async function slippedDigit(fake: FakePhone) {
  await answerStep(fake, 'fit-06', ['fits'])
  await readAt(fake, 'fit-06', 'gap', { g5: 350 })
  await signed(fake, 'fit-06', 'fits')
  await readAt(fake, 'fit-06', 'gap', { g5: 35 })
}

async function wrongLots(fake: FakePhone) {
  const { place } = await frameAt(fake, 'fit-18')
  const found = askOf(place, 'adhesive')
  if (found?.kind !== 'lot') throw new Error('fixture: fit-18.adhesive is no lot')
  const last_month = fake.services.device.clock.now().at_ms - 20 * DAY_MS
  await own(fake, [drafts.lot(place, found, { material: 'foot_sealant', lot: 'S-77', expires_ms: 0 })])
  await own(fake, [drafts.lot(place, found, { material: 'adhesive', lot: 'A-0912', expires_ms: last_month })])
}

async function nextDay(fake: FakePhone) {
  fake.pass(DAY_MS)
  return fake
}

export const CARD_SCENES: Record<string, Scene> = {
  f_first: () => before('rem-01'),
  f_jobs: () => before('rem-18', '/'),
  f_hv: () => before('rem-07', step('rem-07')),
  f_hv_lacks: () => before('rem-07', step('rem-07'), undefined, { person: OSKAR }),
  f_people: () => before('rem-09', step('rem-09')),
  f_lacks: () => before('rem-08', step('rem-08')),
  f_plain: () => before('rem-18', step('rem-18')),
  f_points: () =>
    before('rem-04', ask('rem-04', 'dx'), (fake) => readAt(fake, 'rem-04', 'dx', { d1: 4, d2: -35 })),
  f_points_eight: () =>
    before('fit-06', ask('fit-06', 'gap'), (fake) =>
      readAt(fake, 'fit-06', 'gap', { g1: 34, g2: 35, g3: 50 }),
    ),
  f_points_named: () =>
    before('fit-07', ask('fit-07', 'room'), (fake) => readAt(fake, 'fit-07', 'room', { header_left: 120 })),
  f_against: () => before('rem-09', ask('rem-09', 'rising')),
  f_against_none: async () => {
    const fake = framePhone()
    return { fake, path: ask('rem-09', 'rising') }
  },
  f_since: () =>
    before('fit-16', ask('fit-16', 'flash_off'), async (fake) => {
      await chosen(fake, 'fit-16', 'coat', 'thin_and_even')
      fake.pass(1_380_000)
    }),
  f_when: () => before('fit-27', step('fit-27')),
  f_when_warm: () => before('fit-27', step('fit-27'), (fake) => chosen(fake, 'fit-27', 'cure', 'warm')),
  f_lot: () => before('fit-18', ask('fit-18', 'adhesive')),
  f_lot_marked: () => before('fit-18', step('fit-18'), wrongLots),
  f_made: () =>
    before('fit-06', step('fit-06'), async (fake) => {
      await answerStep(fake, 'fit-06', ['fits', 'corner'])
      await readAt(fake, 'fit-06', 'gap', { g3: 52 })
    }),
  f_void: () => before('fit-06', step('fit-06'), slippedDigit),
  f_sign: () => before('rem-09', ask('rem-09', 'firm'), (fake) => answerStep(fake, 'rem-09', ['firm'])),
  f_sign_void: () => before('fit-06', ask('fit-06', 'fits'), slippedDigit),
  f_sign_other: () =>
    before('rem-41', ask('rem-41', 'fit_to_bond'), (fake) => answerStep(fake, 'rem-41', ['fit_to_bond'])),
  f_held: () =>
    before('rem-37', step('rem-37'), async (fake) => {
      await answerStep(fake, 'rem-37', ['inside', 'cavity'])
      await chosen(fake, 'rem-37', 'inside', 'piece_left_and_signed_for')
    }),
  f_held_sign: () => before('rem-05', step('rem-05'), (fake) => answerStep(fake, 'rem-05', ['agreed'])),
  f_held_deviation: () =>
    before('rem-37', step('rem-37'), async (fake) => {
      const { place } = await frameAt(fake, 'rem-37')
      await own(fake, [
        drafts.deviation(drafts.refOf(place), 'Shank of P8 not found, camera and magnet tried', [], true),
      ])
    }),
  f_two: () => before('rem-14', step('rem-14'), twoSaid),
  f_two_band: () => before('rem-14', paths.card(JOB), twoSaid),
  f_put_off: () =>
    before('rem-02', step('rem-02'), async (fake) => {
      const { place } = await frameAt(fake, 'rem-02')
      await own(fake, [drafts.later(place, 'The van stands too close to the wall until noon')])
    }),
  f_steps: () =>
    before('rem-14', paths.steps(JOB), async (fake) => {
      await twoSaid(fake)
      const { place } = await frameAt(fake, 'rem-15')
      await own(fake, [drafts.later(place, 'No paint marker in the shop')])
    }),
  f_morning: () => before('rem-14', paths.card(JOB), nextDay),
  f_morning_gone: () =>
    before('rem-14', paths.card(JOB), async (fake) => {
      await nextDay(fake)
      const { card } = await frameAt(fake, 'rem-14')
      await own(fake, [
        drafts.condition(card, 'locked_and_dead', true),
        drafts.condition(card, 'on_stands', false),
      ])
    }),
  f_move: () =>
    before('rem-36', paths.card(JOB), async (fake) => {
      const { place } = await frameAt(fake, 'rem-36')
      const [hash = ''] = await own(fake, [photoDraft(place, 'post')])
      moved = hash
    }).then((scene) => ({ ...scene, path: paths.move(JOB, moved) })),
  f_later: () => before('rem-02', paths.write(JOB, 'removal', 'rem-02', 'later')),
  f_done_step: () => before('rem-07', step('rem-06')),
  f_card_two: () => before('fit-02', paths.card(JOB), (fake) => playStep(fake, 'fit-02')),
}

let moved = ''
