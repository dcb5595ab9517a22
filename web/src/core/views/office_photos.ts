/** Photos of a job by slot: wanted, named but their bytes not here yet, at the office. */
import type { PhotoBody } from '../entries.ts'
import type { MethodDoc } from '../method.ts'
import type { CardState, SlotState, StepState } from '../state.ts'
import { entryOf, type JobLog, madeAtMs } from './office_log.ts'
import { askOf, pinnedPlace, placeIn, placeOf } from './office_names.ts'

export type PhotoView = {
  readonly hash: string
  readonly sha256: string
  readonly thumb: string
  readonly width: number
  readonly height: number
  readonly by: string
  readonly at_ms: number
  readonly caption: string
  readonly here: boolean
  readonly thumbHere: boolean
}

export type SlotView = {
  readonly method: string
  readonly step: string
  readonly slot: string
  readonly number: number
  readonly stepTitle: string
  readonly name: string
  readonly show: string
  readonly deadline: string
  /** `later`: wanted once its step's turn has come. */
  readonly state: 'wanted' | 'later' | 'not_wanted' | 'not_here' | 'at_office'
  readonly photos: readonly PhotoView[]
}

export type LoosePhoto = PhotoView & { readonly stepTitle: string }

export type PhotoViews = {
  readonly slots: readonly SlotView[]
  readonly loose: readonly LoosePhoto[]
  readonly answered: number
  readonly wanted: number
  readonly notHere: readonly string[]
}

function photoOf(log: JobLog, hash: string): (PhotoView & { readonly body: PhotoBody }) | undefined {
  const entry = entryOf(log, hash, 'photo')
  const item = log.byHash.get(hash)
  if (entry === undefined || item === undefined) return undefined
  const { sha256, thumb, width, height, caption } = entry.body
  return {
    hash,
    sha256,
    thumb,
    width,
    height,
    by: entry.by,
    at_ms: madeAtMs(item),
    caption: caption ?? '',
    here: log.photosHere.has(sha256),
    thumbHere: log.thumbsHere.has(thumb),
    body: entry.body,
  }
}

type Empty = Extract<SlotView['state'], 'wanted' | 'later' | 'not_wanted'>

function stateOf(photos: readonly PhotoView[], empty: Empty): SlotView['state'] {
  if (photos.length === 0) return empty
  return photos.some((photo) => photo.here) ? 'at_office' : 'not_here'
}

/** A slot of a step that is done wants its photo now, whatever the step needed. */
function emptyState(found: StepState | undefined, slot: string): Empty {
  if (found?.done === 'not_applicable' || found?.not_asked.includes(slot) === true) return 'not_wanted'
  return found?.done === '' && found.needs_open.length > 0 ? 'later' : 'wanted'
}

const stepTitle = (method: MethodDoc | undefined, step: string): string =>
  placeIn(method, step)?.step.title ?? step

function slotView(log: JobLog, state: CardState, slot: SlotState): SlotView {
  const place = pinnedPlace(log, state, slot.method, slot.step)
  const ask = askOf(place, slot.slot)
  const photos = slot.photos.flatMap((hash) => photoOf(log, hash) ?? [])
  const found = state.steps.find((step) => step.method === slot.method && step.step === slot.step)
  return {
    ...slot,
    number: place?.number ?? 0,
    stepTitle: place?.step.title ?? slot.step,
    name: ask?.name ?? slot.slot,
    show: ask?.kind === 'photo' ? ask.show : '',
    deadline: ask?.kind === 'photo' ? stepTitle(place?.method, ask.deadline) : '',
    state: stateOf(photos, emptyState(found, slot.slot)),
    photos,
  }
}

function loosePhoto(log: JobLog, hash: string): LoosePhoto | undefined {
  const photo = photoOf(log, hash)
  return photo && { ...photo, stepTitle: placeOf(log, photo.body)?.step.title ?? '' }
}

/** SHA-256 of every unstruck photo whose bytes the office lacks, once each. */
function bytesNotHere(slots: readonly SlotView[], loose: readonly LoosePhoto[]): readonly string[] {
  const all = [...slots.flatMap((slot) => slot.photos), ...loose]
  return [...new Set(all.filter((photo) => !photo.here).map((photo) => photo.sha256))].sort()
}

export function photoViews(log: JobLog, state: CardState): PhotoViews {
  const slots = state.slots.map((slot) => slotView(log, state, slot))
  const loose = state.loose_photos.flatMap((hash) => loosePhoto(log, hash) ?? [])
  const wanted = slots.filter((slot) => slot.state === 'wanted' || slot.state === 'later').length
  const answered = slots.filter((slot) => slot.photos.length > 0).length
  return { slots, loose, answered, wanted, notHere: bytesNotHere(slots, loose) }
}
