// Plays the demo method's steps on a fake phone, as a technician's taps would.
import type { Author, Draft, Entry } from '../../src/core/entries.ts'
import type { MethodDoc } from '../../src/core/method.ts'
import { askOf, type Card, placeOf, type StepPlace } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { type RunView, runViewOf } from '../../src/core/views/heat_view.ts'
import { withHotRuns } from '../../src/core/views/hot_runs.ts'
import { sawOf } from '../../src/core/views/sign_view.ts'
import type { Drafting } from '../../src/store/types.ts'
import { plansOf } from '../../src/ui/phone/plan_shelf.ts'
import { ADA, authorOf, MARA, OSKAR, PIM } from './fake_people.ts'
import { type FakePhone, fakePhone, JOB } from './fake_phone.ts'
import spine from './fixtures/spine.json?raw'
import { grownCard } from './grown_card.ts'

export const SPINE = JSON.parse(spine) as MethodDoc
const DIGEST = 'f3589b070d259593acc54f931cf179ce9e588587d1e40aa995cc7545dd577945'

export function spinePhone(options: Parameters<typeof fakePhone>[0] = {}): FakePhone {
  return fakePhone({ methods: [SPINE], digests: [DIGEST], ...options })
}

export async function cardNow(fake: FakePhone): Promise<Card> {
  const { store } = fake.services
  return withHotRuns({ ...(await grownCard(fake)), plans: (await plansOf(store)).get(JOB) ?? [] })
}

/** The run as its page shows it now. */
export async function runNow(fake: FakePhone, run: string): Promise<RunView> {
  const found = runViewOf(await cardNow(fake), run)
  if (found === undefined) throw new Error('no run')
  return found
}

export async function write(
  fake: FakePhone,
  made: readonly Drafting[],
  who?: Author,
): Promise<readonly Entry[]> {
  const own = fake.services.store.identity()
  const me = [MARA, OSKAR, PIM, ADA].find((one) => one.id === own?.person) ?? MARA
  fake.pass(5_000)
  return fake.services.store.append(JOB, made, who ?? authorOf(me))
}

export type At = { card: Card; place: StepPlace }

export async function at(fake: FakePhone, step: string): Promise<At> {
  const card = await cardNow(fake)
  const place = placeOf(card, 'spine', step)
  if (place === undefined) throw new Error(`fixture: no step ${step}`)
  return { card, place }
}

export async function tickStep(fake: FakePhone, step: string): Promise<void> {
  const { card, place } = await at(fake, step)
  await write(fake, [drafts.tick(card, place, '')])
}

/** Answers every ask of a step with something inside its limits; photos and runs are left. */
export async function answer(fake: FakePhone, step: string): Promise<void> {
  for (const ask of (await at(fake, step)).place.step.asks) {
    const { card, place } = await at(fake, step)
    const made = answerOf(card, place, ask.id)
    if (made.length > 0) await write(fake, made)
  }
}

function answerOf(card: Card, place: StepPlace, id: string): readonly Draft[] {
  const ask = askOf(place, id)
  switch (ask?.kind) {
    case 'tick':
      return [drafts.tick(card, place, id)]
    case 'text':
      return [drafts.text(card, place, id, 'INV00000000000001')]
    case 'choice':
      return [drafts.choice(card, place, ask, ask.options.find((one) => !one.stop)?.id ?? '')]
    case 'reading': {
      const points = ask.points.length > 0 ? ask.points.map((one) => one.id) : ['']
      const value = ask.max === undefined ? (ask.min ?? 0) + 1 : ask.max - 1
      return points.map((point) => drafts.reading(card, place, ask, point, value))
    }
    case 'lot':
      return [drafts.lot(place, ask, { material: ask.of, lot: 'C-1042', expires_ms: 0 })]
    default:
      return []
  }
}

export async function sign(fake: FakePhone, step: string, ask: string, who: Author): Promise<void> {
  const { card, place } = await at(fake, step)
  fake.brought(
    drafts.countersign(place, ask, sawOf(card, place, ask)),
    who,
    '20000000-0000-4000-8000-000000000002',
  )
}

export async function rivetsOut(fake: FakePhone, positions: readonly string[]): Promise<void> {
  for (const position of positions)
    await write(fake, [drafts.tallyState({ position, generation: 0 }, 'shank_out')])
}

let photo = 0

export async function shoot(fake: FakePhone, step: string, slot: string): Promise<void> {
  const { place } = await at(fake, step)
  photo += 1
  const bytes = Uint8Array.from([0xff, 0xd8, 0xff, 0, photo]).buffer
  const prepared = { bytes, thumb: bytes, type: 'image/jpeg' as const, width: 1200, height: 900 }
  const where = { ...drafts.refOf(place), slot, position: '', caption: '' }
  await fake.services.store.recordPhoto(JOB, prepared, where, authorOf(MARA))
}

const ALL = ['H1', 'H2', 'H3', 'H4', 'P1', 'P2']

/** Plays the job up to, but not into, the step. */
export async function playTo(fake: FakePhone, step: string): Promise<void> {
  const acts: readonly (readonly [string, () => Promise<void>])[] = [
    ['spn-01', () => answer(fake, 'spn-01')],
    [
      'spn-02',
      async () => {
        await answer(fake, 'spn-02')
        await sign(fake, 'spn-02', 'agreed', authorOf(ADA))
      },
    ],
    [
      'spn-03',
      async () => {
        await answer(fake, 'spn-03')
        await shoot(fake, 'spn-03', 'lock')
        await sign(fake, 'spn-03', 'seen_dead', authorOf(OSKAR))
      },
    ],
    ['spn-04', () => answer(fake, 'spn-04')],
    [
      'spn-05',
      async () => {
        await rivetsOut(fake, ALL)
        await answer(fake, 'spn-05')
      },
    ],
    ['spn-06', () => passAccount(fake)],
    ['spn-07', () => answer(fake, 'spn-07')],
    [
      'spn-08',
      async () => {
        await answer(fake, 'spn-08')
        await sign(fake, 'spn-08', 'cleared', authorOf(OSKAR))
      },
    ],
  ]
  for (const [id, act] of acts) {
    if (id === step) return
    await act()
    await tickStep(fake, id)
  }
}

async function passAccount(fake: FakePhone): Promise<void> {
  const { computeViewOf, resultDraft } = await import('../../src/core/views/compute_view.ts')
  const { card, place } = await at(fake, 'spn-06')
  const ask = askOf(place, 'accounted')
  if (ask?.kind !== 'compute') throw new Error('fixture: no computation')
  await write(fake, [resultDraft(card, place, ask, computeViewOf(card, place, ask))])
  await shoot(fake, 'spn-06', 'tray')
  await sign(fake, 'spn-06', 'counted', authorOf(OSKAR))
}

export async function switchOn(fake: FakePhone): Promise<string> {
  const { place } = await at(fake, 'spn-09')
  const ask = askOf(place, 'run')
  if (ask?.kind !== 'heat_run') throw new Error('fixture: no heat run')
  const [entry] = await write(fake, [drafts.heatOn(place, ask)])
  return entry?.hash ?? ''
}

/** Readings of a, b and m in one moment of the run. */
export async function read(
  fake: FakePhone,
  run: string,
  run_ms: number,
  values: readonly number[],
): Promise<void> {
  const { place } = await at(fake, 'spn-09')
  const ask = askOf(place, 'run')
  if (ask?.kind !== 'heat_run') throw new Error('fixture: no heat run')
  const time = { run_ms, run_doubt: false, typed_time: false }
  const made = values.map((value, i) => drafts.runReading(run, 'abm'[i] ?? '', value, ask, time))
  await write(fake, made)
}
