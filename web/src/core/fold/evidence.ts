/** Photos in their slots and loose, and lots. */
import type { Entry } from '../entries.ts'
import type { LotAsk } from '../method.ts'
import type { LotState, SlotState } from '../state.ts'
import { isAsked } from './asked.ts'
import type { Ground } from './ground.ts'
import { unstruck } from './log.ts'
import { grouped, hashesOf } from './order.ts'
import { askOf, type StepPlace } from './revisions.ts'

type Photo = Extract<Entry, { kind: 'photo' }>
export type LotEntry = Extract<Entry, { kind: 'lot' }>

function name(at: StepPlace, ask: string): string {
  return `${at.method}\n${at.step}\n${ask}`
}

/** Every photo ask of the pinned methods, with the photos that answer it. */
export function slotsOf(ground: Ground): SlotState[] {
  const answering = unstruck(ground.log, 'photo').filter((photo) => answers(ground, photo))
  const bySlot = grouped(answering, (photo) => name(photo.body, photo.body.slot))
  return ground.pinned.steps.flatMap(({ method, step }) =>
    step.asks
      .filter((ask) => ask.kind === 'photo')
      .map((ask) => ({ method: method.id, step: step.id, slot: ask.id }))
      .map((at) => ({ ...at, photos: hashesOf(bySlot.get(name(at, at.slot)) ?? []) })),
  )
}

/** Unstruck photos that no slot of the pinned methods asked for. */
export function loosePhotos(ground: Ground): string[] {
  const photos = unstruck(ground.log, 'photo').filter((photo) => !ground.log.sentBack.has(photo.hash))
  return hashesOf(photos.filter((photo) => photo.body.slot === '' || isAstray(ground, photo)))
}

function isAstray(ground: Ground, { body }: Photo): boolean {
  return askOf(ground.pinned.find(body), body.slot, 'photo') === undefined && ground.pinned.answers(body)
}

function answers(ground: Ground, entry: Photo | LotEntry): boolean {
  return !ground.log.sentBack.has(entry.hash) && ground.pinned.answers(entry.body)
}

/** Every lot ask of the pinned methods: the lots that stand there, and those of them that are marked. */
export function lotsOf(ground: Ground): LotState[] {
  const answering = unstruck(ground.log, 'lot').filter((lot) => answers(ground, lot))
  const byAsk = grouped(answering, (lot) => name(lot.body, lot.body.ask))
  return ground.pinned.steps.flatMap((one) =>
    one.step.asks
      .filter((ask) => ask.kind === 'lot')
      .map((ask) => {
        const at = { method: one.method.id, step: one.step.id, ask: ask.id }
        const lots = byAsk.get(name(at, ask.id)) ?? []
        const marked = isAsked(ground, one, ask) ? lots.filter((lot) => isMarked(lot, ask)) : []
        return { ...at, answers: hashesOf(lots), marked: hashesOf(marked) }
      }),
  )
}

function isMarked(lot: LotEntry, ask: LotAsk): boolean {
  return isWrongLot(lot, ask) || isExpired(lot)
}

export function isWrongLot(lot: LotEntry, ask: LotAsk): boolean {
  return lot.body.material !== ask.of
}

export function isExpired(lot: LotEntry): boolean {
  return lot.body.expires_ms !== 0 && lot.at_ms > lot.body.expires_ms
}
