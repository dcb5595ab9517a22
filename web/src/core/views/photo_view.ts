/** Photos: which slots are wanted now, before what they must be taken, which were missed, and which were taken. */
import type { PhotoAsk } from '../method.ts'
import { remarkOn } from './answers.ts'
import { bodyOf, type Card, isStruck, type Known, knownOf, registerOf, type StepPlace } from './card.ts'
import { isReached, runsOf } from './statuses.ts'

/** A photo that was in the slot and answers no more, with the words of the strike or of the office. */
export type GonePhoto = { readonly photo: Known; readonly why: string; readonly by: 'strike' | 'office' }

export type WantedSlot = {
  readonly place: StepPlace
  readonly ask: PhotoAsk
  /** The step before which it must be taken; undefined = when you can, or too late. */
  readonly before: StepPlace | undefined
  /** The step that has begun or was done although it had to be taken before. */
  readonly missed: StepPlace | undefined
  /** `not_yet`: what it shows is not there before the card gets to its step. */
  readonly when: 'now' | 'not_yet'
  readonly gone: readonly GonePhoto[]
}

export type WantedGroup = {
  readonly before: StepPlace | undefined
  /** Open steps that come before the deadline's own. */
  readonly steps_left: number
  readonly slots: readonly WantedSlot[]
}

export type WantedView = {
  readonly now: readonly WantedGroup[]
  readonly missed: readonly WantedSlot[]
  /** Missed, and a deviation says so: nothing is left to do. */
  readonly told: readonly WantedSlot[]
  /** What the card has not come to, as far as this phone has heard. */
  readonly later: readonly WantedGroup[]
}

export function wantedViewOf(card: Card): WantedView {
  const slots = card.steps.flatMap((place) => slotsOf(card, place))
  const missed = slots.filter((slot) => slot.missed !== undefined)
  const told = missed.filter((slot) => deviationOf(card, slot) !== undefined)
  const takeable = (when: WantedSlot['when']) =>
    slots.filter((slot) => slot.missed === undefined && slot.when === when)
  return {
    now: grouped(card, takeable('now')),
    missed: missed.filter((slot) => !told.includes(slot)),
    told,
    later: grouped(card, takeable('not_yet')),
  }
}

/** The nearest deadline first, by the order in which the card works; 'when you can' last. */
function grouped(card: Card, slots: readonly WantedSlot[]): readonly WantedGroup[] {
  const deadlines = [...new Set(slots.flatMap((slot) => slot.before ?? []))].sort(
    (a, b) => a.number - b.number,
  )
  const undated = slots.filter((slot) => slot.before === undefined)
  const dated = deadlines.map((before) => ({
    before,
    steps_left: openBefore(card, before),
    slots: slots.filter((slot) => slot.before === before),
  }))
  return undated.length === 0 ? dated : [...dated, { before: undefined, steps_left: 0, slots: undated }]
}

function openBefore(card: Card, before: StepPlace): number {
  return card.steps.filter((place) => place.number < before.number && place.state.done === '').length
}

function slotsOf(card: Card, place: StepPlace): readonly WantedSlot[] {
  if (place.state.done === 'not_applicable') return []
  return place.step.asks.flatMap((ask) => {
    if (ask.kind !== 'photo' || place.state.not_asked.includes(ask.id)) return []
    return isTaken(card, place, ask.id) ? [] : [slotOf(card, place, ask)]
  })
}

/** The slot as it stands while no photo answers it. */
export function slotOf(card: Card, place: StepPlace, ask: PhotoAsk): WantedSlot {
  const deadline = card.steps.find((one) => one.method.id === place.method.id && one.step.id === ask.deadline)
  const begun = deadline !== undefined && beginningOf(card, deadline) !== undefined
  const applies = deadline !== undefined && deadline.state.done !== 'not_applicable'
  return {
    ...{ place, ask, gone: goneOf(card, place, ask.id), when: isReached(card, place) ? 'now' : 'not_yet' },
    before: applies && !begun ? deadline : undefined,
    missed: applies && begun ? deadline : undefined,
  }
}

/** The record with which a step began: the switch-on of its heat run, else the tick that says it is done. */
function beginningOf(card: Card, place: StepPlace): string | undefined {
  const run = runsOf(card, place).find((one) => !one.aborted)
  if (run !== undefined) return run.run
  const shown = registerOf(card, place, 'tick', '')?.shown
  return place.state.done === 'done' ? shown : undefined
}

export function isTaken(card: Card, place: StepPlace, slot: string): boolean {
  return photosIn(card, place, slot).length > 0
}

/** The hashes of the photos that answer a slot. */
export function photosIn(card: Card, place: StepPlace, slot: string): readonly string[] {
  return (
    card.state.slots.find(
      (one) => one.method === place.method.id && one.step === place.step.id && one.slot === slot,
    )?.photos ?? []
  )
}

/** Struck or sent back out of this slot; a photo that was moved on is none of them. */
function goneOf(card: Card, place: StepPlace, slot: string): readonly GonePhoto[] {
  const standing = photosIn(card, place, slot)
  return [...card.entries.values()].flatMap((photo): readonly GonePhoto[] => {
    const body = bodyOf(card, photo.entry.hash, 'photo')
    if (body === undefined || body.method !== place.method.id || body.step !== place.step.id) return []
    if (body.slot !== slot || standing.includes(photo.entry.hash)) return []
    if (!isStruck(card, photo.entry.hash)) {
      const why = remarkOn(card, photo.entry.hash)
      return why === '' ? [] : [{ photo, why, by: 'office' }]
    }
    return isElsewhere(card, body.sha256) ? [] : [{ photo, why: strikeOf(card, photo), by: 'strike' }]
  })
}

function strikeOf(card: Card, { entry }: Known): string {
  const strikes = card.state.struck.find((one) => one.target === entry.hash)?.by ?? []
  return strikes.map((by) => bodyOf(card, by, 'strike')?.reason).find((one) => one !== undefined) ?? ''
}

function isElsewhere(card: Card, sha256: string): boolean {
  return takenOf(card).some(({ entry }) => entry.kind === 'photo' && entry.body.sha256 === sha256)
}

/** What a deviation for a missed slot names: the photos that answer no more, and what came before them. */
export function aboutMissed(card: Card, slot: WantedSlot): readonly string[] {
  const begun = slot.missed && beginningOf(card, slot.missed)
  return [...slot.gone.map(({ photo }) => photo.entry.hash), ...(begun === undefined ? [] : [begun])]
}

/** The deviation that says why a missed slot stays empty; without a photo to name, one for its step and deadline. */
export function deviationOf(card: Card, slot: WantedSlot): string | undefined {
  const wanted = aboutMissed(card, slot)
  const { method, step } = slot.place
  return card.state.deviations.find((hash) => {
    const body = bodyOf(card, hash, 'deviation')
    if (body?.method !== method.id || body.step !== step.id) return false
    const photos = body.about.filter((one) => card.entries.get(one)?.entry.kind === 'photo')
    return wanted.every((one) => body.about.includes(one)) && (slot.gone.length > 0 || photos.length === 0)
  })
}

/** The slots that the same deviation speaks for: of one step, missed by one deadline, with nothing to name. */
export function missedTogether(card: Card, slot: WantedSlot): readonly WantedSlot[] {
  if (slot.gone.length > 0) return [slot]
  return slotsOf(card, slot.place).filter((one) => one.missed === slot.missed && one.gone.length === 0)
}

export function wantedCount(groups: readonly WantedGroup[]): number {
  return groups.reduce((n, group) => n + group.slots.length, 0)
}

/** Photos that stand, in slots and without one, newest first. */
export function takenOf(card: Card): readonly Known[] {
  const hashes = [...card.state.slots.flatMap((slot) => slot.photos), ...card.state.loose_photos]
  return [...new Set(hashes)].flatMap((hash) => knownOf(card, hash) ?? []).sort((a, b) => b.order - a.order)
}
