// Scenes of the photographer: what is wanted, what came too late, the viewfinder and its troubles.
import * as drafts from '../../../src/core/views/drafts.ts'
import { paths } from '../../../src/ui/phone/router.ts'
import { PIM } from '../fake_people.ts'
import { type FakePhone, JOB } from '../fake_phone.ts'
import { answerStep, frameAt, framePhone, own, photoDraft, playFrameTo, playStep } from '../played_frame.ts'

type Scene = () => Promise<{ fake: FakePhone; path: string }>
type Options = Parameters<typeof framePhone>[0]

const outlines = import.meta.glob('../../../../seed_data/methods/outline_*.svg', {
  query: '?raw',
  import: 'default',
  eager: true,
}) as Readonly<Record<string, string>>

/** Every drawing under the hash that the fixture's methods name. */
async function named(): Promise<Readonly<Record<string, string>>> {
  const methods = Object.values(await framePhone().services.store.methods())
  const hashes = methods.flatMap((method) => Object.entries(method.drawings))
  return Object.fromEntries(
    hashes.flatMap(([id, sha]) => {
      const svg =
        outlines[`../../../../seed_data/methods/${id}.svg`] ??
        outlines[`../../../../seed_data/methods/outline_${id}.svg`]
      return svg === undefined ? [] : [[sha, svg] as const]
    }),
  )
}

async function walked(until: string, but: readonly string[], options: Options = {}) {
  const fake = framePhone({ drawings: await named(), ...options })
  await playFrameTo(fake, 'rem-02')
  await answerStep(fake, 'rem-02', but)
  const { card, place } = await frameAt(fake, 'rem-02')
  await own(fake, [drafts.tick(card, place, '')])
  for (const { step } of card.steps.slice(2)) {
    if (step.id === until) break
    await playStep(fake, step.id)
  }
  return fake
}

const slot = (step: string, id: string) => paths.ask(JOB, 'removal', step, id)
const BUT = ['front_left', 'damage_wide', 'damage_close']

async function wrongSide(until: string, options: Options = {}) {
  const fake = await walked('rem-03', ['damage_wide'], options)
  const { card, place } = await frameAt(fake, 'rem-02')
  const [hash = ''] = await own(fake, [photoDraft(place, 'damage_wide')])
  for (const { step } of card.steps.slice(2)) {
    if (step.id === until) break
    await playStep(fake, step.id)
  }
  await own(fake, [drafts.strike(hash, 'shows the right side')])
  return fake
}

const seen =
  (view: 'live' | 'denied' | 'none' | 'in_use'): Scene =>
  async () => {
    const fake = await walked('rem-03', BUT, { person: PIM })
    fake.set.camera(view)
    return { fake, path: slot('rem-02', 'damage_wide') }
  }

const PAPERS = [
  {
    sha256: '1'.repeat(64),
    name: 'Frame half, left, issue 7',
    job: JOB,
    method: '',
    bytes: 8_400_000,
    here: true,
  },
  {
    sha256: '2'.repeat(64),
    name: 'Data sheet of the adhesive',
    job: '',
    method: 'removal',
    bytes: 410_000,
    here: false,
  },
]

export const PHOTO_SCENES: Record<string, Scene> = {
  p_wanted: async () => ({ fake: await walked('rem-09', BUT, { person: PIM }), path: paths.wanted(JOB) }),
  p_next: async () => ({ fake: await walked('rem-10', BUT, { person: PIM }), path: paths.wanted(JOB) }),
  p_missed: async () => ({ fake: await walked('rem-12', BUT), path: paths.wanted(JOB) }),
  p_again: async () => ({ fake: await wrongSide('rem-05', { person: PIM }), path: paths.wanted(JOB) }),
  p_again_slot: async () => ({ fake: await wrongSide('rem-05'), path: slot('rem-02', 'damage_wide') }),
  p_late_slot: async () => ({ fake: await wrongSide('rem-11'), path: slot('rem-02', 'damage_wide') }),
  p_late_reader: async () => ({
    fake: await wrongSide('rem-11', { person: PIM }),
    path: slot('rem-02', 'damage_wide'),
  }),
  p_live: seen('live'),
  p_denied: seen('denied'),
  p_none: seen('none'),
  p_in_use: seen('in_use'),
  p_papers: async () => ({
    fake: await walked('rem-03', [], { papers: PAPERS }),
    path: paths.papers(JOB),
  }),
  p_no_papers: async () => ({ fake: await walked('rem-03', []), path: paths.papers(JOB) }),
  p_step: async () => ({
    fake: await walked('rem-03', BUT),
    path: paths.step(JOB, 'removal', 'rem-02'),
  }),
}
