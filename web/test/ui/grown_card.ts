// The card of a fake phone's job: what was recorded since it was last asked for is folded onto it, as on the phone.

import { foldOnto } from '../../src/core/fold/grown.ts'
import { fold } from '../../src/core/fold/index.ts'
import { type Card, cardOf } from '../../src/core/views/card.ts'
import { type FakePhone, JOB } from './fake_phone.ts'

const ASKED_BEFORE = new WeakMap<FakePhone, Card>()

export async function grownCard(fake: FakePhone): Promise<Card> {
  const { store } = fake.services
  const before = ASKED_BEFORE.get(fake)
  const folding: typeof fold = (methods, entries) =>
    before === undefined ? fold(methods, entries) : foldOnto(before.state, methods, entries)
  const card = cardOf(JOB, await store.entries(JOB), await store.methods(), await store.people(), folding)
  ASKED_BEFORE.set(fake, card)
  return card
}
