/** What a tap asks to have recorded: drafts with the hashes that they replace, as this screen saw them. */
import type { Draft, Entry, LadderState, LaterAct, Mark, Piece, StepRef } from '../entries.ts'
import type { ChoiceAsk, HeatRunAsk, LotAsk, ReadingAsk } from '../method.ts'
import type { PositionState } from '../state.ts'
import type { Card, StepPlace } from './card.ts'
import { overOf, refOf } from './tick_draft.ts'

export { refOf, tick } from './tick_draft.ts'

export const NO_STEP: StepRef = { method: '', digest: '', step: '' }

export function notApplicable(card: Card, place: StepPlace, reason: string): Draft {
  const over = overOf(card, place, 'tick', '')
  return { kind: 'tick', body: { ...refOf(place), ask: '', value: 'not_applicable', reason, over } }
}

export function text(card: Card, place: StepPlace, ask: string, value: string): Draft {
  const over = overOf(card, place, 'text', ask)
  return { kind: 'text', body: { ...refOf(place), ask, point: '', value, over } }
}

export function choice(card: Card, place: StepPlace, ask: ChoiceAsk, option: string): Draft {
  const over = overOf(card, place, 'choice', ask.id)
  return { kind: 'choice', body: { ...refOf(place), ask: ask.id, point: '', option, over } }
}

export function reading(card: Card, place: StepPlace, ask: ReadingAsk, point: string, value: number): Draft {
  const over = overOf(card, place, 'reading', ask.id, point)
  const { unit, decimals } = ask
  return { kind: 'reading', body: { ...refOf(place), ask: ask.id, point, value, unit, decimals, over } }
}

export function lot(
  place: StepPlace,
  ask: LotAsk,
  printed: { material: string; lot: string; expires_ms: number },
): Draft {
  return { kind: 'lot', body: { ...refOf(place), ask: ask.id, ...printed } }
}

export function note(ref: StepRef, words: string): Draft {
  return { kind: 'note', body: { ...ref, text: words, about: [] } }
}

/** What was done with the adhesive's mixer, in words for whoever reads the record. */
export function mixerNote(ref: StepRef, words: string, mixer: 'stands' | 'flows' | 'changed'): Draft {
  return { kind: 'note', body: { ...ref, text: words, about: [], mixer } }
}

export function deviation(
  ref: StepRef,
  words: string,
  about: readonly string[],
  passes_hold: boolean,
): Draft {
  return { kind: 'deviation', body: { ...ref, text: words, about: [...about].sort(), passes_hold } }
}

/** 'Do it later': the next act passes the step by. */
export function later(place: StepPlace, reason: string): Draft {
  return { kind: 'later', body: { ...refOf(place), reason } }
}

/** Somebody looked at a standing condition: it still holds, or it does not. */
export function condition(card: Card, id: string, holds: boolean): Draft {
  const register = card.state.registers.find((one) => one.kind === 'condition' && one.point === id)
  return { kind: 'condition', body: { condition: id, holds, over: [...(register?.standing ?? [])].sort() } }
}

/** The same photo in another slot: a new entry of the same bytes, and a strike of the old one with it. */
export function movedPhoto(
  photo: Entry<'photo'>,
  to: { place: StepPlace; slot: string },
  reason: string,
): readonly [Draft, Draft] {
  const body = { ...photo.body, ...refOf(to.place), slot: to.slot }
  return [{ kind: 'photo', body }, strike(photo.hash, reason)]
}

export function strike(target: string, reason: string): Draft {
  return { kind: 'strike', body: { target, reason } }
}

export function countersign(place: StepPlace, ask: string, saw: readonly string[]): Draft {
  return { kind: 'countersign', body: { ...refOf(place), ask, saw: [...saw].sort() } }
}

export function tallyState(at: { position: string; generation: number }, state: LadderState): Draft {
  return { kind: 'tally', body: { position: at.position, generation: at.generation, state } }
}

export function tallyMark(at: PositionState, mark: Mark, piece: Piece | '' = '', lost = ''): Draft {
  return { kind: 'tally', body: { position: at.position, generation: at.generation, mark, piece, lost } }
}

/** `plan`: of the response set that it is begun with; '' without one. */
export function heatOn(place: StepPlace, ask: HeatRunAsk, plan = ''): Draft {
  const zone = place.method.zones.find((one) => one.id === ask.zone)
  const pads = (zone?.pads ?? []).map((pad) => pad.id)
  const { zone: zoneId, purpose } = ask
  return {
    kind: 'heat',
    body: { act: 'on', ...refOf(place), ask: ask.id, zone: zoneId, purpose, pads, plan },
  }
}

/** When something of a run happened: by the run clock, or typed in late. */
export type RunTime = {
  readonly run_ms: number
  readonly run_doubt: boolean
  readonly typed_time: boolean
}

export function heatAct(
  run: string,
  act: LaterAct,
  at: RunTime,
  more: { pad?: string; text?: string } = {},
): Draft {
  return {
    kind: 'heat',
    body: { act, run, pad: more.pad ?? '', text: more.text ?? '', ...at },
  }
}

export function runReading(run: string, sensor: string, value: number, ask: HeatRunAsk, at: RunTime): Draft {
  const { sensors_unit: unit, decimals } = ask.settings
  const { run_ms, run_doubt, typed_time } = at
  return {
    kind: 'reading',
    body: { run, sensor, unit, decimals, points: [[run_ms, value]], run_doubt, typed_time },
  }
}

export function heard(run: string, moment: string, silent_s: number): Draft {
  return { kind: 'heard', body: { run, moment, silent_s } }
}
