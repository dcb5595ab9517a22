/** Photos in their slots and loose. */
import type { Entry } from '../entries.ts'
import type { SlotState } from '../state.ts'
import { type Log, unstruck } from './log.ts'
import { grouped, hashesOf } from './order.ts'
import { askName, askOf, type Pinned, type StepPlace } from './revisions.ts'

type Photo = Extract<Entry, { kind: 'photo' }>

const nameOf = (at: StepPlace & { readonly slot: string }) => askName({ ...at, ask: at.slot })

/** What is shown in photos. */
export type Photos = { readonly slots: readonly SlotState[]; readonly loose: readonly string[] }

type Ground = { readonly log: Log; readonly pinned: Pinned }

export function readPhotos(ground: Ground): Photos {
  return { slots: slotsOf(ground), loose: loosePhotos(ground) }
}

/** Every photo ask of the pinned methods, with the photos that answer it. */
function slotsOf(ground: Ground): SlotState[] {
  const answering = unstruck(ground.log, 'photo').filter((photo) => answers(ground, photo))
  const bySlot = grouped(answering, (photo) => nameOf(photo.body))
  return ground.pinned.steps.flatMap(({ method, step }) =>
    step.asks
      .filter((ask) => ask.kind === 'photo')
      .map((ask) => ({ method: method.id, step: step.id, slot: ask.id }))
      .map((at) => ({ ...at, photos: hashesOf(bySlot.get(nameOf(at)) ?? []) })),
  )
}

/** Unstruck photos that no slot of the pinned methods asked for. */
function loosePhotos(ground: Ground): string[] {
  const photos = unstruck(ground.log, 'photo').filter((photo) => !ground.log.sentBack.has(photo.hash))
  return hashesOf(photos.filter((photo) => photo.body.slot === '' || isAstray(ground, photo)))
}

function isAstray(ground: Ground, { body }: Photo): boolean {
  return askOf(ground.pinned.find(body), body.slot, 'photo') === undefined && ground.pinned.answers(body)
}

function answers(ground: Ground, entry: Photo): boolean {
  return !ground.log.sentBack.has(entry.hash) && ground.pinned.answers(entry.body)
}
