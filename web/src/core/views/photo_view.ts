/** Photos: which slots are wanted, before what they must be taken, and which were taken. */
import type { PhotoAsk } from '../method.ts'
import { type Card, type Known, knownOf, type StepPlace } from './card.ts'

export type WantedSlot = {
  readonly place: StepPlace
  readonly ask: PhotoAsk
  /** The step before which it must be taken; undefined = when you can. */
  readonly before: StepPlace | undefined
}

export type WantedGroup = { readonly before: StepPlace | undefined; readonly slots: readonly WantedSlot[] }

/** Every slot that no photo answers, in groups: the nearest deadline first, 'when you can' last. */
export function wantedOf(card: Card): readonly WantedGroup[] {
  const slots = card.steps.flatMap((place) => slotsOf(card, place))
  const deadlines = [...new Set(slots.flatMap((slot) => slot.before?.number ?? []))].sort((a, b) => a - b)
  const dated = deadlines.map((number) => {
    const here = slots.filter((slot) => slot.before?.number === number)
    return { before: here[0]?.before, slots: here }
  })
  const undated = slots.filter((slot) => slot.before === undefined)
  return undated.length === 0 ? dated : [...dated, { before: undefined, slots: undated }]
}

function slotsOf(card: Card, place: StepPlace): readonly WantedSlot[] {
  if (place.state.done === 'not_applicable') return []
  return place.step.asks.flatMap((ask) => {
    if (ask.kind !== 'photo' || place.state.not_asked.includes(ask.id)) return []
    if (isTaken(card, place, ask.id)) return []
    const before = card.steps.find(
      (one) => one.method.id === place.method.id && one.step.id === ask.deadline && one.state.done === '',
    )
    return [{ place, ask, before }]
  })
}

export function isTaken(card: Card, place: StepPlace, slot: string): boolean {
  return card.state.slots.some(
    (one) =>
      one.method === place.method.id &&
      one.step === place.step.id &&
      one.slot === slot &&
      one.photos.length > 0,
  )
}

export function wantedCount(groups: readonly WantedGroup[]): number {
  return groups.reduce((n, group) => n + group.slots.length, 0)
}

/** Photos that stand, in slots and without one, newest first. */
export function takenOf(card: Card): readonly Known[] {
  const hashes = [...card.state.slots.flatMap((slot) => slot.photos), ...card.state.loose_photos]
  return [...new Set(hashes)].flatMap((hash) => knownOf(card, hash) ?? []).sort((a, b) => b.order - a.order)
}
