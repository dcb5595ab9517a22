/** Where a photo can be moved: every slot of the job but the one that it is in, those still wanted first. */
import type { PhotoAsk } from '../method.ts'
import type { Card, StepPlace } from './card.ts'
import { isTaken } from './photo_view.ts'

export type SlotPlace = { readonly place: StepPlace; readonly ask: PhotoAsk; readonly taken: number }

export function slotsToMoveTo(
  card: Card,
  from: { readonly method: string; readonly step: string; readonly slot: string },
): readonly SlotPlace[] {
  const all = card.steps.flatMap((place) =>
    place.step.asks.flatMap((ask) => {
      if (ask.kind !== 'photo') return []
      const here = place.method.id === from.method && place.step.id === from.step && ask.id === from.slot
      return here ? [] : [{ place, ask, taken: countAt(card, place, ask.id) }]
    }),
  )
  const wanted = all.filter((one) => one.taken === 0)
  const ofStep = (one: SlotPlace) =>
    one.place.step.id === from.step && one.place.method.id === from.method ? 0 : 1
  return [...wanted.sort((a, b) => ofStep(a) - ofStep(b)), ...all.filter((one) => one.taken > 0)]
}

function countAt(card: Card, place: StepPlace, slot: string): number {
  if (!isTaken(card, place, slot)) return 0
  const found = card.state.slots.find(
    (one) => one.method === place.method.id && one.step === place.step.id && one.slot === slot,
  )
  return found?.photos.length ?? 0
}
