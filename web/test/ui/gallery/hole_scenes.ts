// Scenes of what each hole allows: on the map, on a position's sheet, at the step that measures them.
import rear_frame from '../../../../seed_data/methods/rear_frame.svg?raw'
import * as drafts from '../../../src/core/views/drafts.ts'
import { paths } from '../../../src/ui/phone/router.ts'
import { type FakePhone, JOB } from '../fake_phone.ts'
import { computePhone, FRAME_METHODS, playComputedTo, readAgain } from '../played_compute.ts'
import { frameAt, own } from '../played_frame.ts'

type Scene = () => Promise<{ fake: FakePhone; path: string; press?: readonly string[] }>

const ROWS = { h: 7, p: 9, f: 6 }
const POINTS = Object.entries(ROWS).flatMap(([row, n]) =>
  Array.from({ length: n }, (_, at) => `${row}${at + 1}`),
)

/** In hundredths of a millimetre; H4 and P6 go up, P9 and F3 have no room, H2 is small, F5 and F6 are not read. */
const WORN: Readonly<Record<string, number>> = { h4: 524, p6: 523, p9: 520, f3: 516, h2: 487 }
const ALONG = Object.fromEntries(
  POINTS.filter((point) => point !== 'f5' && point !== 'f6').map((point) => [point, WORN[point] ?? 497]),
)
const ACROSS = Object.fromEntries(Object.keys(ALONG).map((point) => [point, point === 'h2' ? 486 : 498]))

/** Measured but for two holes; the edge is read at H4, P2 is torn. */
async function measured(): Promise<FakePhone> {
  const drawings = Object.fromEntries(FRAME_METHODS.map(({ drawings: one }) => [one.part ?? '', rear_frame]))
  const fake = computePhone({ drawings })
  await playComputedTo(fake, 'rem-39')
  await readAgain(fake, 'rem-39', 'along', ALONG)
  await readAgain(fake, 'rem-39', 'across', ACROSS)
  await readAgain(fake, 'rem-39', 'edge', { h4: 138 })
  const { card } = await frameAt(fake, 'rem-39')
  const torn = card.state.positions.find(({ position }) => position === 'P2')
  if (torn) await own(fake, [drafts.tallyMark(torn, 'damaged_hole', '')])
  return fake
}

const STEP = paths.step(JOB, 'removal', 'rem-39')

export const HOLE_SCENES: Readonly<Record<string, Scene>> = {
  holes_map: async () => ({ fake: await measured(), path: paths.map(JOB) }),
  holes_sheet: async () => ({ fake: await measured(), path: paths.map(JOB), press: ['H4', '.map-position'] }),
  holes_short: async () => ({ fake: await measured(), path: paths.map(JOB), press: ['P9', '.map-position'] }),
  holes_step: async () => ({ fake: await measured(), path: STEP }),
  holes_decision: async () => {
    const fake = await measured()
    await readAgain(fake, 'rem-39', 'along', { f5: 497, f6: 497 })
    await readAgain(fake, 'rem-39', 'across', { f5: 498, f6: 496 })
    return { fake, path: paths.ask(JOB, 'removal', 'rem-39', 'decision') }
  },
}
