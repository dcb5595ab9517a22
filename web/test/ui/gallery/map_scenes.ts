// Scenes of the fastener map: taking out and setting, with 22 and with 40 positions.
import { paths } from '../../../src/ui/phone/router.ts'
import type { FakePhone } from '../fake_phone.ts'
import { JOB, MAPPED_22, MAPPED_40, mapPhone, mark, type Stated, state } from '../map_phone.ts'

type Scene = () => Promise<{ fake: FakePhone; path: string }>

const ask = (step: string, group: string) => paths.ask(JOB, 'mapped', step, group)

function run(letter: string, from: number, to: number, reached: Stated[1], generation = 0): Stated[] {
  return Array.from({ length: to - from + 1 }, (_, i) => [`${letter}${from + i}`, reached, generation])
}

/** The half-done removal of the sketch: waves of the same act, one hole torn, one shank lost. */
async function halfOut(fake: FakePhone): Promise<void> {
  await state(fake, ...run('H', 1, 7, 'shank_out'), ...run('P', 1, 2, 'shank_out'))
  await state(fake, ...run('P', 3, 5, 'head_off'), ...run('P', 6, 9, 'head_drilled'))
  await state(fake, ...run('F', 1, 2, 'mandrel_out'))
  await mark(fake, 'H4', { mark: 'damaged_hole' })
  await mark(fake, 'H7', { mark: 'lost', piece: 'shank' })
}

async function halfSet(fake: FakePhone): Promise<void> {
  await state(
    fake,
    ...run('H', 1, 7, 'shank_out'),
    ...run('P', 1, 9, 'shank_out'),
    ...run('F', 1, 6, 'shank_out'),
  )
  await state(fake, ...run('H', 1, 7, 'set_and_checked', 1), ...run('P', 1, 2, 'set', 1))
  await state(fake, ...run('P', 3, 4, 'rivet_seated', 1), ...run('P', 5, 7, 'hole_checked', 1))
  await state(fake, ['P2', 'shank_out', 1], ['P2', 'set', 2], ['P1', 'head_drilled', 1])
}

export const MAP_SCENES: Record<string, Scene> = {
  map: async () => {
    const fake = mapPhone(MAPPED_22)
    await halfOut(fake)
    return { fake, path: ask('out', 'post') }
  },
  map_fresh: async () => ({ fake: mapPhone(MAPPED_22), path: ask('one', 'header') }),
  map_40: async () => {
    const fake = mapPhone(MAPPED_40)
    await state(fake, ...run('A', 1, 9, 'shank_out'), ...run('A', 10, 12, 'head_off'))
    await mark(fake, 'A3', { mark: 'damaged_hole' })
    return { fake, path: ask('out', 'top') }
  },
  map_set: async () => {
    const fake = mapPhone(MAPPED_22)
    await halfSet(fake)
    return { fake, path: ask('check', 'post') }
  },
  map_whole: async () => {
    const fake = mapPhone(MAPPED_22)
    await halfOut(fake)
    return { fake, path: paths.map(JOB) }
  },
}
