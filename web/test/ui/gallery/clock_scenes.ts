// Scenes of the bond's clocks before a step that would end outside: surface, primer, mixer.
import * as drafts from '../../../src/core/views/drafts.ts'
import { paths } from '../../../src/ui/phone/router.ts'
import { type FakePhone, JOB } from '../fake_phone.ts'
import { computePhone, playComputedTo } from '../played_compute.ts'
import { frameAt, own } from '../played_frame.ts'

type Scene = () => Promise<{ fake: FakePhone; path: string }>

const MIN = 60_000

/** At a step, so many minutes after an answer of an earlier one. */
function since(ask: string, step: string, minutes: number, more = async (_: FakePhone) => {}): Scene {
  return async () => {
    const fake = computePhone()
    await playComputedTo(fake, step)
    const started = fake.entries().find(({ entry }) => 'ask' in entry.body && entry.body.ask === ask)
    fake.pass((started?.entry.at_ms ?? 0) + minutes * MIN - fake.services.device.clock.now().at_ms)
    await more(fake)
    return { fake, path: paths.step(JOB, 'fitting', step) }
  }
}

async function mixerStands(fake: FakePhone): Promise<void> {
  const { place } = await frameAt(fake, 'fit-18')
  await own(fake, [drafts.mixerNote(drafts.refOf(place), 'The mixer stands.', 'stands')])
  fake.pass(4 * MIN)
}

export const CLOCK_SCENES: Readonly<Record<string, Scene>> = {
  clock_surface: since('matt', 'fit-16', 92),
  clock_primer: since('coat', 'fit-18', 53),
  clock_mixer: since('first_gram', 'fit-19', 2, mixerStands),
}
