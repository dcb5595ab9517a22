/** How each ask of a step stands: open or answered, with what, by whom, and what the office sent back. */
import type { Entry } from '../entries.ts'
import type { Ask, HeatRunAsk } from '../method.ts'
import type { CountersignState, PositionState, RegisterState, RunState } from '../state.ts'
import { bodyOf, type Card, type Known, knownOf, placeOf, registerOf, type StepPlace } from './card.ts'
import { runsOf } from './statuses.ts'

/** One value of a register as the screen shows it. */
export type Value = {
  readonly point: string
  /** The point's name; empty where the ask has no points. */
  readonly name: string
  readonly known: Known | undefined
  /** All that stand and were not sent back: more than one where two answered without seeing each other. */
  readonly standing: readonly Known[]
  readonly twoStand: boolean
  readonly sentBack: string
}

export type Sign = { readonly state: CountersignState; readonly known: Known }

export type AskView = {
  readonly ask: Ask
  readonly open: boolean
  readonly values: readonly Value[]
  readonly photos: readonly Known[]
  readonly lots: readonly { readonly known: Known; readonly marked: boolean }[]
  readonly signs: readonly Sign[]
  readonly runs: readonly RunState[]
  readonly positions: readonly PositionState[]
}

/** The asks of a step that are asked here: one with a `when` only while its choice shows that option. */
export function asksOf(card: Card, place: StepPlace): readonly AskView[] {
  return place.step.asks.filter((ask) => isAsked(card, place, ask)).map((ask) => askViewOf(card, place, ask))
}

export function isAsked(_card: Card, { state }: StepPlace, { id }: Ask): boolean {
  return !state.not_asked.includes(id)
}

export function askViewOf(card: Card, place: StepPlace, ask: Ask): AskView {
  return {
    ask,
    open: place.state.open.includes(ask.id),
    values: valuesOf(card, place, ask),
    photos: ask.kind === 'photo' ? photosOf(card, place, ask.id) : [],
    lots: ask.kind === 'lot' ? lotsOf(card, place, ask.id) : [],
    signs: ask.kind === 'countersign' ? signsOf(card, place, ask.id) : [],
    runs: ask.kind === 'heat_run' ? runsAt(card, place, ask) : [],
    positions: ask.kind === 'tally' ? positionsOf(card, [ask.group]) : [],
  }
}

/** The runs of a heat run's ask: those of the ask that it continues, where it continues one. */
function runsAt(card: Card, place: StepPlace, { id, continues }: HeatRunAsk): readonly RunState[] {
  if (continues === undefined) return runsOf(card, place, id)
  const begun = placeOf(card, continues.method, continues.step)
  return begun === undefined ? [] : runsOf(card, begun, continues.ask)
}

const REGISTER: Partial<Record<Ask['kind'], RegisterState['kind']>> = {
  tick: 'tick',
  text: 'text',
  choice: 'choice',
  reading: 'reading',
  compute: 'result',
}

/** The points of a reading; an ask without points has one without a name. */
export function pointsOf(ask: Ask): readonly { readonly id: string; readonly name: string }[] {
  return ask.kind === 'reading' && ask.points.length > 0 ? ask.points : [{ id: '', name: '' }]
}

function valuesOf(card: Card, place: StepPlace, ask: Ask): readonly Value[] {
  const kind = REGISTER[ask.kind]
  if (kind === undefined) return []
  return pointsOf(ask).map((point) => {
    const register = registerOf(card, place, kind, ask.id, point.id)
    const standing = allKnown(card, standingUnsent(register))
    return {
      point: point.id,
      name: point.name,
      known: knownOf(card, register?.shown ?? ''),
      standing,
      twoStand: standing.length > 1,
      sentBack: remarkOf(card, register),
    }
  })
}

function standingUnsent(register: RegisterState | undefined): readonly string[] {
  return (register?.standing ?? []).filter((hash) => !register?.sent_back.includes(hash))
}

/** The office's remark on a value that is sent back and not yet recorded anew. */
function remarkOf(card: Card, register: RegisterState | undefined): string {
  if (register === undefined || standingUnsent(register).length > 0) return ''
  return register.sent_back.map((hash) => remarkOn(card, hash)).find((remark) => remark !== '') ?? ''
}

export function remarkOn(card: Card, hash: string): string {
  for (const { entry } of card.entries.values()) {
    if (entry.kind === 'send_back' && entry.body.hashes.includes(hash)) return entry.body.remark
  }
  return ''
}

function allKnown(card: Card, hashes: readonly string[]): readonly Known[] {
  return hashes.flatMap((hash) => knownOf(card, hash) ?? [])
}

function photosOf(card: Card, place: StepPlace, slot: string): readonly Known[] {
  const found = card.state.slots.find(
    (one) => one.method === place.method.id && one.step === place.step.id && one.slot === slot,
  )
  return allKnown(card, found?.photos ?? [])
}

function lotsOf(card: Card, place: StepPlace, ask: string): AskView['lots'] {
  const found = card.state.lots.find(
    (one) => one.method === place.method.id && one.step === place.step.id && one.ask === ask,
  )
  const hashes = new Set([...(found?.answers ?? []), ...(found?.marked ?? [])])
  return allKnown(card, [...hashes]).map((known) => ({
    known,
    marked: found?.marked.includes(known.entry.hash) ?? false,
  }))
}

/** Countersigns of this ask; an empty ask means those of a deviation that passes the hold. */
export function signsOf(card: Card, place: StepPlace, ask: string): readonly Sign[] {
  return card.state.countersigns.flatMap((state) => {
    const known = knownOf(card, state.hash)
    const body = bodyOf(card, state.hash, 'countersign')
    const here = body?.method === place.method.id && body.step === place.step.id && body.ask === ask
    return known !== undefined && here ? [{ state, known }] : []
  })
}

export function positionsOf(card: Card, groups: readonly string[]): readonly PositionState[] {
  return card.state.positions.filter((one) => groups.includes(one.group))
}

/** The step's own tick, where somebody made it. */
export function tickOf(card: Card, place: StepPlace): Entry<'tick'> | undefined {
  const entry = knownOf(card, place.state.tick)?.entry
  return entry?.kind === 'tick' ? (entry as Entry<'tick'>) : undefined
}
