// Plays the rear frame's methods with results that are really worked out, up to a computation of some step.
import type { Draft } from '../../src/core/entries.ts'
import type { ComputeAsk, MethodDoc } from '../../src/core/method.ts'
import { askOf, type Card, type StepPlace } from '../../src/core/views/card.ts'
import type { Asking } from '../../src/core/views/compute_inputs.ts'
import { type ComputeView, computeViewOf, resultDraft } from '../../src/core/views/compute_view.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import type { FakePhone } from './fake_phone.ts'
import methods from './fixtures/frame_methods.json?raw'
import { answerStep, type FrameAt, frameAt, framePhone, own, signed } from './played_frame.ts'

/** The two methods as the compiler makes them, inputs and facts included. */
export const FRAME_METHODS = JSON.parse(methods) as readonly MethodDoc[]

export function computePhone(more: Omit<Parameters<typeof framePhone>[0], 'methods'> = {}): FakePhone {
  return framePhone({ ...more, methods: FRAME_METHODS })
}

/** The clock of these phones is right: now is what it says. */
export function askingOf(fake: FakePhone): Asking {
  return { at_ms: () => fake.services.device.clock.now().at_ms }
}

export function computeAskOf(place: StepPlace, id: string): ComputeAsk {
  const ask = askOf(place, id)
  if (ask?.kind !== 'compute') throw new Error(`fixture: ${id} is no computation`)
  return ask
}

export type Asked = FrameAt & { readonly ask: ComputeAsk; readonly view: ComputeView }

export async function viewAt(fake: FakePhone, step: string, id: string): Promise<Asked> {
  const { card, place } = await frameAt(fake, step)
  const ask = computeAskOf(place, id)
  return { card, place, ask, view: computeViewOf(card, place, ask, askingOf(fake)) }
}

/** Works an ask out and records it; what waits for something stays open. */
export async function workOut(fake: FakePhone, step: string, id: string): Promise<void> {
  const { card, place, ask, view } = await viewAt(fake, step, id)
  if (view.answer !== undefined) await own(fake, [resultDraft(card, place, ask, view)])
}

/** Another value for a reading, in place of the one that stands. */
export async function readAgain(
  fake: FakePhone,
  step: string,
  id: string,
  values: Readonly<Record<string, number>>,
): Promise<void> {
  const { card, place } = await frameAt(fake, step)
  const ask = askOf(place, id)
  if (ask?.kind !== 'reading') throw new Error(`fixture: ${id} is no reading`)
  const made: Draft[] = Object.entries(values).map(([point, value]) =>
    drafts.reading(card, place, ask, point, value),
  )
  await own(fake, made)
}

/** All asks of a step inside their limits, its computations really worked out; not ticked. */
export async function answerWorkedOut(fake: FakePhone, step: string): Promise<void> {
  const { place } = await frameAt(fake, step)
  const computed = place.step.asks.filter((ask) => ask.kind === 'compute').map((ask) => ask.id)
  const signs = place.step.asks.filter((ask) => ask.kind === 'countersign').map((ask) => ask.id)
  await answerStep(fake, step, [...computed, ...signs])
  for (const id of computed) await workOut(fake, step, id)
  for (const id of signs) await signed(fake, step, id)
}

/** Everything before this step is done, with results worked out. */
export async function playComputedTo(fake: FakePhone, step: string): Promise<void> {
  const { card, place } = await frameAt(fake, step)
  for (const { step: before } of stepsBefore(card, place)) {
    await answerWorkedOut(fake, before.id)
    const now = await frameAt(fake, before.id)
    await own(fake, [drafts.tick(now.card, now.place, '')])
  }
}

function stepsBefore(card: Card, place: StepPlace): readonly StepPlace[] {
  return card.steps.slice(0, place.number - 1)
}
