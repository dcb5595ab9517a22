// Scenes of computations: what they wait for, answers inside and outside, border cases, what moved on.
import { askOf } from '../../../src/core/views/card.ts'
import * as drafts from '../../../src/core/views/drafts.ts'
import { paths } from '../../../src/ui/phone/router.ts'
import { type FakePhone, JOB } from '../fake_phone.ts'
import { answerWorkedOut, computePhone, playComputedTo, readAgain, workOut } from '../played_compute.ts'
import { frameAt, own } from '../played_frame.ts'

type Scene = () => Promise<{ fake: FakePhone; path: string }>
type More = (fake: FakePhone) => Promise<unknown>

const MIN = 60_000
const methodOf = (step: string) => (step.startsWith('rem') ? 'removal' : 'fitting')

function asked(step: string, id: string, more: More = async () => undefined): Scene {
  return async () => {
    const fake = computePhone()
    await playComputedTo(fake, step)
    await more(fake)
    return { fake, path: paths.ask(JOB, methodOf(step), step, id) }
  }
}

const read =
  (step: string, values: Readonly<Record<string, Readonly<Record<string, number>>>>): More =>
  async (fake) => {
    for (const [id, at] of Object.entries(values)) await readAgain(fake, step, id, at)
  }

async function chooseCure(fake: FakePhone, option: 'warm' | 'room'): Promise<void> {
  const { card, place } = await frameAt(fake, 'fit-27')
  const ask = askOf(place, 'cure')
  if (ask?.kind === 'choice') await own(fake, [drafts.choice(card, place, ask, option)])
}

async function loseShank(fake: FakePhone): Promise<void> {
  const { card } = await frameAt(fake, 'rem-21')
  const at = card.state.positions.find((one) => one.position === 'P8')
  if (at) await own(fake, [drafts.tallyMark(at, 'lost', 'shank')])
}

const BODY = {
  dx: { d1: 5, d2: -4, d3: 8, d4: -2, d5: 11, d6: 3 },
  dy: { d1: -3, d2: 6, d3: 2, d4: -7, d5: 9, d6: -5 },
  dz: { d1: 2, d2: 1, d3: -5, d4: 4, d5: -6, d6: 8 },
}
const BENT = { ...BODY, dx: { ...BODY.dx, d5: 92 }, dy: { ...BODY.dy, d5: 64 } }
const ROWS = { h: 7, p: 9, f: 6 }
const HOLES: Readonly<Record<string, number>> = Object.fromEntries(
  Object.entries(ROWS).flatMap(([row, count]) =>
    Array.from({ length: count }, (_, place) => [`${row}${place + 1}`, 497 + (place % 3)]),
  ),
)
const ROOM = {
  header_left: 112,
  header_centre: 118,
  corner: 141,
  post_top: 127,
  post_middle: 122,
  post_bottom: 109,
}

/** The card so many minutes after the first gram, the part on or not yet. */
function bonding(step: string, minutes: number, more: More = async () => undefined): Scene {
  return async () => {
    const fake = computePhone()
    await playComputedTo(fake, step)
    const started = fake
      .entries()
      .find(({ entry }) => entry.kind === 'tick' && entry.body.ask === 'first_gram')
    fake.pass((started?.entry.at_ms ?? 0) + minutes * MIN - fake.services.device.clock.now().at_ms)
    await more(fake)
    return { fake, path: paths.step(JOB, 'fitting', step) }
  }
}

/** The office has entered a sheet of the adhesive with other cartridges than the method's. */
async function withSheet(fake: FakePhone): Promise<void> {
  const figure = (name: string, value: number, low: number, high: number) => ({
    ...{ name, value, low, high },
    ...{ unit: 'mL', decimals: 0 },
  })
  const about = { digest: 'e'.repeat(64), group: 'adhesives', material: 'adhesive', name: 'Invented paste 4' }
  const values = [figure('cartridge', 400, 380, 410), figure('left_in_mixer', 12, 12, 12)]
  const sheet = { ...about, sheet: 'Paste 4 data', revision: 'C', dated: '2026-02-01', values }
  const shelf = { instruments: [], lots: [], sheets: [sheet] }
  await fake.services.store.setSetting('shelf', JSON.stringify(shelf))
}

/** The office has entered a sheet of the rivets whose rows overlap. */
async function withRivetSheet(fake: FakePhone): Promise<void> {
  const rows = [
    { length: 110, low: 50, high: 75, part: 'N 11' },
    { length: 130, low: 70, high: 95, part: 'N 13' },
    { length: 150, low: 95, high: 115, part: 'N 15' },
  ]
  const about = { digest: 'd'.repeat(64), group: 'rivets', material: 'rivets', name: 'Invented blind rivet' }
  const said = { sheet: 'Rivet sheet', revision: 'B', dated: '2026-02-01', values: [] }
  const sheet = { ...about, ...said, table: { unit: 'mm', decimals: 1, rows } }
  await fake.services.store.setSetting(
    'shelf',
    JSON.stringify({ instruments: [], lots: [], sheets: [sheet] }),
  )
}

const mixerStands =
  (minutes: number): More =>
  async (fake) => {
    const { place } = await frameAt(fake, 'fit-18')
    await own(fake, [drafts.mixerNote(drafts.refOf(place), 'The mixer stands.', 'stands')])
    fake.pass(minutes * MIN)
  }

async function setLate(fake: FakePhone): Promise<void> {
  fake.pass(5 * MIN)
  for (const position of ['P8', 'P9'])
    await own(fake, [drafts.tallyState({ position, generation: 1 }, 'set')])
}

export const COMPUTE_SCENES: Record<string, Scene> = {
  compute_waits: asked('fit-04', 'dew_point', read('fit-04', { air: { '': 221 } })),
  compute_dew: asked(
    'fit-04',
    'dew_point',
    read('fit-04', { air: { '': 221 }, humidity: { '': 58 }, flange: { '': 194 } }),
  ),
  compute_dew_short: asked(
    'fit-04',
    'dew_point',
    read('fit-04', { air: { '': 245 }, humidity: { '': 68 }, flange: { '': 203 } }),
  ),
  compute_body: asked('rem-04', 'body', read('rem-04', BODY)),
  compute_bent: asked('fit-30', 'body', read('fit-30', BENT)),
  compute_gaps: asked(
    'fit-30',
    'fit',
    read('fit-30', {
      gap: { g1: 35, g2: 34, g3: 36, g4: 35, g5: 47, g6: 35, g7: 33, g8: 35 },
      step: { g1: 0, g2: 2, g3: -3, g4: 1, g5: 0, g6: -12, g7: 4, g8: 0 },
    }),
  ),
  compute_bondline: asked('fit-07', 'bondline', read('fit-07', { room: ROOM })),
  compute_grip: asked('fit-10', 'grip', read('fit-10', { laminate: { header: 320, post: 321, foot: 318 } })),
  compute_grip_spans: asked('fit-10', 'grip', async (fake) => {
    await read('fit-07', { room: ROOM })(fake)
    await read('fit-10', { laminate: { header: 450, post: 321, foot: 900 } })(fake)
  }),
  compute_grip_border: asked(
    'fit-10',
    'grip',
    read('fit-10', { laminate: { header: 320, post: 435, foot: 320 } }),
  ),
  compute_holes: asked(
    'rem-39',
    'decision',
    read('rem-39', {
      along: HOLES,
      across: { ...HOLES, p6: 523, h2: 487, p9: 520, h4: 524 },
      edge: { h4: 138 },
    }),
  ),
  compute_sheet: asked('fit-17', 'bead', withSheet),
  compute_grip_sheet: asked('fit-10', 'grip', async (fake) => {
    await withRivetSheet(fake)
    await read('fit-10', { laminate: { header: 320, post: 321, foot: 318 } })(fake)
  }),
  compute_edge: asked('fit-09', 'edge_rule', read('fit-09', { edge: { '': 139 } })),
  compute_picked: asked('fit-10', 'picked', async (fake) => {
    await read('fit-10', { laminate: { header: 320, post: 321, foot: 318 } })(fake)
    await workOut(fake, 'fit-10', 'grip')
  }),
  compute_picked_open: asked('fit-10', 'picked', async (fake) => {
    await read('fit-10', { laminate: { header: 320, post: 435, foot: 318 } })(fake)
    await workOut(fake, 'fit-10', 'grip')
  }),
  compute_drying_cold: asked(
    'fit-12',
    'dried',
    read('fit-12', { drying_time: { '': 720 }, drying: { coldest: 58, hottest: 74 } }),
  ),
  compute_bit_over: asked('fit-08', 'bits', read('fit-08', { drilled: { '': 22 }, per_bit: { '': 12 } })),
  compute_pairs: asked('fit-10', 'pairs'),
  compute_open_time: async () => {
    const scene = await asked('fit-19', 'open_time', async (fake) => fake.pass(12 * MIN))()
    return { ...scene, path: paths.ask(JOB, 'fitting', 'fit-18', 'open_time') }
  },
  compute_tally: asked('rem-21', 'accounted', async (fake) => {
    await answerWorkedOut(fake, 'rem-21')
    await loseShank(fake)
    await readAgain(fake, 'rem-21', 'pieces', { shanks: 21 })
  }),
  compute_recorded: async () => {
    const scene = await asked('fit-05', 'lies_down')()
    return { ...scene, path: paths.ask(JOB, 'fitting', 'fit-04', 'dew_point') }
  },
  bond_open: bonding('fit-19', 4),
  bond_mixer_stands: bonding('fit-19', 3, mixerStands(3)),
  bond_mixer_set: bonding('fit-19', 3, mixerStands(9)),
  bond_ends_outside: bonding('fit-19', 12),
  bond_closing: bonding('fit-22', 31),
  bond_late: bonding('fit-23', 33, setLate),
  compute_plan: asked('rem-25', 'plan', read('rem-25', { air: { '': 205 } })),
  compute_mismatch: asked('fit-27', 'mismatch', (fake) => chooseCure(fake, 'warm')),
  compute_warming: asked('fit-27', 'progress', async (fake) => {
    await chooseCure(fake, 'room')
    fake.pass(10 * 60 * MIN)
    await readAgain(fake, 'fit-27', 'coldest', { '': 92 })
  }),
  compute_cure: asked('fit-28', 'progress', async (fake) => {
    fake.pass(10 * 60 * MIN)
    await readAgain(fake, 'fit-27', 'coldest', { '': 186 })
    await readAgain(fake, 'fit-28', 'blob', { '': 55 })
  }),
}
