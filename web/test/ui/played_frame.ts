// Plays the two methods of the rear frame on a fake phone, step by step, each answered inside its limits.
import type { Draft } from '../../src/core/entries.ts'
import type { Ask, MethodDoc, ReadingAsk } from '../../src/core/method.ts'
import { askOf, type Card, placeOf, type StepPlace } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { withHotRuns } from '../../src/core/views/hot_runs.ts'
import { earlierOf } from '../../src/core/views/reading_view.ts'
import { sawOf } from '../../src/core/views/sign_view.ts'
import { ADA, authorOf, MARA, OSKAR } from './fake_people.ts'
import { type FakePhone, fakePhone, JOB } from './fake_phone.ts'
import methods from './fixtures/frame_methods.json?raw'
import { grownCard } from './grown_card.ts'

/** Removal and fitting, as the compiler makes them of what is shipped. */
const METHODS = JSON.parse(methods) as readonly MethodDoc[]
const OTHER_PHONE = '20000000-0000-4000-8000-000000000002'

export function framePhone(options: Parameters<typeof fakePhone>[0] = {}): FakePhone {
  return fakePhone({ methods: METHODS, ...options })
}

export async function frameCard(fake: FakePhone): Promise<Card> {
  return withHotRuns(await grownCard(fake))
}

export type FrameAt = { readonly card: Card; readonly place: StepPlace }

export async function frameAt(fake: FakePhone, step: string): Promise<FrameAt> {
  const card = await frameCard(fake)
  const place = placeOf(card, step.startsWith('rem') ? 'removal' : 'fitting', step)
  if (place === undefined) throw new Error(`fixture: no step ${step}`)
  return { card, place }
}

/** Everything before this step is done; the step itself is untouched. */
export async function playFrameTo(fake: FakePhone, step: string): Promise<void> {
  const { card, place } = await frameAt(fake, step)
  for (const { step: before } of card.steps.slice(0, place.number - 1)) await playStep(fake, before.id)
}

export async function playStep(fake: FakePhone, step: string): Promise<void> {
  await answerStep(fake, step)
  const { card, place } = await frameAt(fake, step)
  await own(fake, [drafts.tick(card, place, '')])
  if (place.state.hold === 'held') await passed(fake, step)
}

/** What this fixture cannot work out, a figure or a run, is passed by a deviation with its second name. */
async function passed(fake: FakePhone, step: string): Promise<void> {
  const { place } = await frameAt(fake, step)
  const [hash = ''] = await own(fake, [drafts.deviation(drafts.refOf(place), 'as agreed', [], true)])
  fake.brought(drafts.countersign(place, '', [hash]), authorOf(OSKAR), OTHER_PHONE)
}

/** All asks but the named ones, inside their limits, countersigns by somebody else. */
export async function answerStep(fake: FakePhone, step: string, but: readonly string[] = []): Promise<void> {
  const { card, place } = await frameAt(fake, step)
  const asks = place.step.asks.filter((ask) => !but.includes(ask.id))
  for (const ask of asks) await own(fake, answersOf(card, place, ask))
  for (const ask of asks) if (ask.kind === 'countersign') await signed(fake, step, ask.id)
}

export async function signed(fake: FakePhone, step: string, id: string): Promise<void> {
  const { card, place } = await frameAt(fake, step)
  const ask = place.step.asks.find((one) => one.id === id)
  const demand = ask?.kind === 'countersign' ? ask.of : ''
  const who = demand === 'office' ? ADA : OSKAR
  const author = authorOf(who)
  const as = demand === 'second_person' ? author.as : [...new Set([...author.as, demand])].sort()
  fake.brought(drafts.countersign(place, id, sawOf(card, place, id)), { ...author, as }, OTHER_PHONE)
}

/** As Mara on this phone, five seconds later. */
export async function own(fake: FakePhone, made: readonly Draft[]): Promise<readonly string[]> {
  if (made.length === 0) return []
  fake.pass(5_000)
  return (await fake.services.store.append(JOB, made, authorOf(MARA))).map((entry) => entry.hash)
}

let photos = 0

function answersOf(card: Card, place: StepPlace, ask: Ask): readonly Draft[] {
  switch (ask.kind) {
    case 'tick':
      return [drafts.tick(card, place, ask.id)]
    case 'text':
      return [drafts.text(card, place, ask.id, 'as on the sheet')]
    case 'choice':
      return [drafts.choice(card, place, ask, ask.options.find((one) => !one.stop)?.id ?? '')]
    case 'reading': {
      if (ask.where_needed) return []
      const points = ask.points.length > 0 ? ask.points.map((one) => one.id) : ['']
      return points.map((point) => drafts.reading(card, place, ask, point, insideOf(card, ask, point)))
    }
    case 'lot':
      return [drafts.lot(place, ask, { material: ask.of, lot: 'C-1042', expires_ms: 0 })]
    case 'photo':
      return [photoDraft(place, ask.id)]
    case 'tally':
      return positionsOf(place, ask.group).map((position) =>
        drafts.tallyState(
          { position, generation: ask.to.startsWith('s') && ask.to !== 'shank_out' ? 1 : 0 },
          ask.to,
        ),
      )
    case 'compute':
      return [resultDraft(place, ask.id, ask.computation)]
    case 'heat_run':
    case 'countersign':
      return []
  }
}

function positionsOf(place: StepPlace, group: string): readonly string[] {
  return place.method.groups.find((one) => one.id === group)?.positions ?? []
}

function insideOf(card: Card, ask: ReadingAsk, point: string): number {
  const earlier = earlierOf(card, ask, point)
  if (earlier !== undefined) return earlier.value ?? ask.plausible?.[0] ?? 0
  const { min, max, plausible } = ask
  if (min !== undefined && max !== undefined) return Math.floor((min + max) / 2)
  return min ?? max ?? Math.floor(((plausible?.[0] ?? 0) + (plausible?.[1] ?? 2)) / 2)
}

export function photoDraft(place: StepPlace, slot: string): Draft {
  photos += 1
  const sha256 = photos.toString(16).padStart(64, '0')
  const size = { bytes: 4, width: 1200, height: 900, type: 'image/jpeg' as const }
  const where = { ...drafts.refOf(place), slot, position: '', caption: '' }
  return { kind: 'photo', body: { sha256, thumb: sha256, ...size, ...where } }
}

function resultDraft(place: StepPlace, ask: string, computation: string): Draft {
  const told = { computation, model: 'fixture-1', inputs: [], values: [], verdict: 'inside' as const }
  return { kind: 'result', body: { ...drafts.refOf(place), ask, point: '', ...told, over: [] } }
}

export async function phoneAt(step: string): Promise<FakePhone> {
  const fake = framePhone()
  await playFrameTo(fake, step)
  return fake
}

export async function readingAt(fake: FakePhone, step: string, id: string) {
  const { card, place } = await frameAt(fake, step)
  const ask = askOf(place, id)
  if (ask?.kind !== 'reading') throw new Error(`fixture: ${step}.${id} is no reading`)
  return { card, place, ask }
}

export async function readPoint(fake: FakePhone, step: string, id: string, point: string, value: number) {
  const { card, place, ask } = await readingAt(fake, step, id)
  return own(fake, [drafts.reading(card, place, ask, point, value)])
}

export async function choose(fake: FakePhone, step: string, id: string, option: string) {
  const { card, place } = await frameAt(fake, step)
  const ask = askOf(place, id)
  if (ask?.kind !== 'choice') throw new Error(`fixture: ${step}.${id} is no choice`)
  return own(fake, [drafts.choice(card, place, ask, option)])
}
