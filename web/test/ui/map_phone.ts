// A fake phone with a method that has a drawing, and rivets as a technician's taps would leave them.
import type { LadderState } from '../../src/core/entries.ts'
import type { MethodDoc } from '../../src/core/method.ts'
import { type Card, cardOf, placeOf, type StepPlace } from '../../src/core/views/card.ts'
import * as drafts from '../../src/core/views/drafts.ts'
import { ADA, authorOf, MARA } from './fake_people.ts'
import { type FakePhone, fakePhone, JOB } from './fake_phone.ts'
import { DRAWINGS, MAPPED_22, MAPPED_40 } from './fixtures/fastener_maps.ts'

export type Stated = readonly [position: string, state: LadderState, generation?: number]

export function mapPhone(method: MethodDoc = MAPPED_22): FakePhone {
  return fakePhone({ methods: [method], drawings: DRAWINGS })
}

export { MAPPED_22, MAPPED_40 }

export async function mapCard(fake: FakePhone): Promise<Card> {
  const { store } = fake.services
  return cardOf(JOB, await store.entries(JOB), await store.methods(), await store.people())
}

export async function mapPlace(fake: FakePhone, step: string): Promise<{ card: Card; place: StepPlace }> {
  const card = await mapCard(fake)
  const place = placeOf(card, 'mapped', step)
  if (place === undefined) throw new Error(`fixture: no step ${step}`)
  return { card, place }
}

export async function state(fake: FakePhone, ...stated: readonly Stated[]): Promise<void> {
  for (const [position, reached, generation = 0] of stated) {
    fake.pass(4_000)
    await fake.services.store.append(
      JOB,
      [drafts.tallyState({ position, generation }, reached)],
      authorOf(MARA),
    )
  }
}

export async function mark(
  fake: FakePhone,
  position: string,
  body: { mark: 'damaged_hole' | 'lost' | 'found'; piece?: 'shank' | 'head' | 'mandrel'; lost?: string },
  generation = 0,
): Promise<string> {
  fake.pass(4_000)
  const { mark: word, piece = '', lost = '' } = body
  const [made] = await fake.services.store.append(
    JOB,
    [{ kind: 'tally', body: { position, generation, mark: word, piece, lost } }],
    authorOf(MARA),
  )
  return made?.hash ?? ''
}

export { ADA, authorOf, JOB, MARA }
