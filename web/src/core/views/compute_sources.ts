/** Where the inputs of a computation come from: each answer as it stands, or what is still waited for. */

import type { Input, Run } from '../computations/inputs.ts'
import type { Entry } from '../entries.ts'
import { grouped } from '../fold/order.ts'
import { type AnswerRef, type Ask, type ComputeAsk, type Ladder, ladderTo } from '../method.ts'
import type { RegisterState, RunState } from '../state.ts'
import { askOf, bodyOf, type Card, type Known, knownOf, placeOf, type StepPlace } from './card.ts'
import { actRowsOf, rowsOf } from './run_rows.ts'

/** One answer that an input takes: where it is given, and by whom. */
export type Source = {
  readonly place: StepPlace
  readonly ask: Ask
  readonly point: string
  readonly known: Known
}
/** One answer that is not there yet. */
export type Wait = {
  readonly input: string
  readonly ref: AnswerRef
  readonly place?: StepPlace
  readonly ask?: Ask
}

/** `input` is undefined while something is waited for, and where nothing was asked. */
export type Found = {
  readonly input: Input | undefined
  readonly sources: readonly Source[]
  readonly waits: readonly Omit<Wait, 'input'>[]
  readonly hashes: readonly string[]
}

const NOTHING: Found = { input: undefined, sources: [], waits: [], hashes: [] }

/** What an answer of some step gives; `asTime` takes it for when it was given. */
export function foundAt(card: Card, ref: AnswerRef, asTime: boolean): Found {
  const place = placeOf(card, ref.method, ref.step)
  const ask = place && askOf(place, ref.ask)
  if (place === undefined || ask === undefined) return waiting({ ref })
  const wait = { ref, place, ask }
  if (place.state.not_asked.includes(ask.id)) return notAsked(place, ref, ask)
  switch (ask.kind) {
    case 'reading':
      return readingAt(card, { ...wait, ask }, asTime)
    case 'tick':
    case 'text':
    case 'choice':
      return valueAt(card, wait, asTime)
    case 'compute':
      return resultAt(card, wait)
    case 'lot':
      return lotsAt(card, wait)
    case 'heat_run':
      return runsAt(card, wait)
    case 'tally':
    case 'photo':
    case 'countersign':
      return NOTHING
    default:
      ask satisfies never
      return NOTHING
  }
}

/** What is read so far at the points of a reading; undefined where nothing is, or where it has no points. */
export function soFarAt(card: Card, ref: AnswerRef): Extract<Input, { kind: 'points' }> | undefined {
  const place = placeOf(card, ref.method, ref.step)
  const ask = place && askOf(place, ref.ask)
  if (place === undefined || ask?.kind !== 'reading' || ask.points.length === 0) return undefined
  const at = ask.points.flatMap(({ id }) => {
    const known = answerAt(card, { ref, place, ask }, 'reading', id)
    const body = known && bodyOf(card, known.entry.hash, 'reading')
    return body === undefined || 'run' in body ? [] : [[id, body.value] as const]
  })
  return at.length === 0 ? undefined : { kind: 'points', at, unit: ask.unit, decimals: ask.decimals }
}

type At<A extends Ask = Ask> = { readonly ref: AnswerRef; readonly place: StepPlace; readonly ask: A }

function waiting(...waits: readonly Omit<Wait, 'input'>[]): Found {
  return { ...NOTHING, waits }
}

/** Left out; but while the choice that it hangs on is open, that choice is waited for. */
function notAsked(place: StepPlace, ref: AnswerRef, ask: Ask): Found {
  const choice = ask.when && askOf(place, ask.when.ask)
  if (choice === undefined || !place.state.open.includes(choice.id)) return NOTHING
  return waiting({ ref: { ...ref, ask: choice.id, point: '' }, place, ask: choice })
}

/** Whole sets of points are asked for register by register: each step's are looked for once a card. */
const BY_STEP = new WeakMap<Card, ReadonlyMap<string, readonly RegisterState[]>>()

function registersAt(card: Card, { method, step }: StepPlace): readonly RegisterState[] {
  const byStep = BY_STEP.get(card) ?? grouped(card.state.registers, (one) => `${one.method}/${one.step}`)
  BY_STEP.set(card, byStep)
  return byStep.get(`${method.id}/${step.id}`) ?? []
}

/** The value that answers: one that was sent back answers nothing. */
function answerAt(
  card: Card,
  { ref, place }: At,
  kind: RegisterState['kind'],
  point = '',
): Known | undefined {
  const register = registersAt(card, place).find(
    (one) => one.kind === kind && one.ask === ref.ask && one.point === point,
  )
  if (register === undefined || register.sent_back.includes(register.shown)) return undefined
  return knownOf(card, register.shown)
}

function oneSource({ place, ask }: At, known: Known, input: Input | undefined, point = ''): Found {
  return { input, sources: [{ place, ask, point, known }], waits: [], hashes: [known.entry.hash] }
}

function readingAt(card: Card, at: At<Extract<Ask, { kind: 'reading' }>>, asTime: boolean): Found {
  const { ref, place, ask } = at
  const all = ask.points.length === 0 ? [''] : ask.points.map((one) => one.id)
  const points = ref.point ? [ref.point] : all
  const found = points.map((point) => ({ point, known: answerAt(card, at, 'reading', point) }))
  const open = found.filter((one) => one.known === undefined)
  if (ask.where_needed && open.length === found.length) return NOTHING
  if (open.length > 0 && !ask.where_needed)
    return waiting(...open.map(({ point }) => ({ ref: { ...ref, point }, place, ask })))
  const sources = found.flatMap(({ point, known }) =>
    known === undefined ? [] : [{ place, ask, point, known }],
  )
  const read = sources.flatMap(({ point, known }) => {
    const body = bodyOf(card, known.entry.hash, 'reading')
    return body === undefined || 'run' in body ? [] : [{ point, value: body.value, at_ms: known.entry.at_ms }]
  })
  const at_ms = Math.max(0, ...read.map((one) => one.at_ms))
  const scale = { unit: ask.unit, decimals: ask.decimals, at_ms }
  const [first] = read
  const input: Input | undefined = asTime
    ? { kind: 'moment', at_ms }
    : points.length === 1 && first !== undefined
      ? { kind: 'quantity', value: first.value, ...scale }
      : { kind: 'points', at: read.map(({ point, value }) => [point, value] as const), ...scale }
  return { input, sources, waits: [], hashes: sources.map((one) => one.known.entry.hash) }
}

function valueAt(card: Card, at: At, asTime: boolean): Found {
  const kind = at.ask.kind as 'tick' | 'text' | 'choice'
  const known = answerAt(card, at, kind)
  return known === undefined ? waiting(at) : oneSource(at, known, inputOf(known.entry, at.ask, asTime))
}

function inputOf(entry: Entry, ask: Ask, asTime: boolean): Input | undefined {
  if (asTime || entry.kind === 'tick') return { kind: 'moment', at_ms: entry.at_ms }
  if (entry.kind === 'text') return { kind: 'word', text: entry.body.value }
  if (entry.kind !== 'choice' || ask.kind !== 'choice') return undefined
  const { option } = entry.body
  return { kind: 'chosen', option, stop: ask.options.some((one) => one.id === option && one.stop) }
}

/** A result that is not there, or was worked out from older records. */
function resultAt(card: Card, at: At): Found {
  const known = answerAt(card, at, 'result')
  const body = known && bodyOf(card, known.entry.hash, 'result')
  if (known === undefined || body === undefined || at.place.state.open.includes(at.ask.id)) return waiting(at)
  const { computation, values, verdict } = body
  return oneSource(at, known, { kind: 'earlier', computation, values, verdict, at_ms: known.entry.at_ms })
}

function lotsAt(card: Card, at: At): Found {
  const { ref, place, ask } = at
  const state = card.state.lots.find(
    (one) => one.method === ref.method && one.step === ref.step && one.ask === ref.ask,
  )
  const known = (state?.answers ?? []).flatMap((hash) => knownOf(card, hash) ?? [])
  if (known.length === 0) return waiting(at)
  const lots = known.flatMap(({ entry }) => {
    if (entry.kind !== 'lot' || ask.kind !== 'lot') return []
    const { lot, material, expires_ms } = entry.body
    return [{ lot, wrong: material !== ask.of, expired: expires_ms !== 0 && entry.at_ms > expires_ms }]
  })
  return {
    input: { kind: 'lots', lots },
    sources: known.map((one) => ({ place, ask, point: '', known: one })),
    waits: [],
    hashes: known.map((one) => one.entry.hash),
  }
}

/** Runs that were begun for the ask and not aborted, the oldest first. */
function runsAt(card: Card, at: At): Found {
  const begun = at.ask.kind === 'heat_run' ? (at.ask.continues ?? at.ref) : at.ref
  const states = card.state.runs.filter(
    (run) => !run.aborted && run.method === begun.method && run.step === begun.step && run.ask === begun.ask,
  )
  const known = states.flatMap((run) => knownOf(card, run.run) ?? [])
  if (known.length === 0) return waiting(at)
  const runs = states.flatMap((run) => runOf(card, run) ?? []).sort((one, other) => one.on_ms - other.on_ms)
  return {
    input: { kind: 'runs', runs },
    sources: known.map((one) => ({ place: at.place, ask: at.ask, point: '', known: one })),
    waits: [],
    hashes: states.flatMap((run) => [run.run, ...run.readings]),
  }
}

function runOf(card: Card, run: RunState): Run | undefined {
  const place = placeOf(card, run.method, run.step)
  const ask = place && askOf(place, run.ask)
  const zone = place?.method.zones.find((one) => one.id === run.zone)
  const on = knownOf(card, run.run)
  if (ask?.kind !== 'heat_run' || zone === undefined || on === undefined) return undefined
  const rows = rowsOf(card, run, zone)
  return {
    on_ms: on.entry.at_ms,
    aborted: run.aborted,
    decimals: ask.settings.decimals,
    soak_ms: run.soak_ms,
    soak_s: ask.settings.soak_s,
    gap_max_s: ask.settings.gap_max_s,
    sensors: zone.sensors.map((sensor) => ({
      sensor: sensor.id,
      of: sensor.of ?? 'bond',
      points: rows.filter((row) => row.sensor === sensor.id).map((row) => [row.run_ms, row.value] as const),
    })),
    purpose: run.purpose,
    acts: actRowsOf(card, run).map(({ act, pad, run_ms }) => [act, pad, run_ms] as const),
    release: ask.settings.release,
  }
}

/** On which half of the ladder the named tallies are counted; undefined where the method names none. */
export function ladderOf(card: Card, ask: ComputeAsk): Ladder | undefined {
  for (const one of ask.inputs ?? []) {
    for (const ref of 'from' in one ? one.from : []) {
      const place = placeOf(card, ref.method, ref.step)
      const found = place && askOf(place, ref.ask)
      if (found?.kind === 'tally') return ladderTo(found.to)
    }
  }
  return undefined
}
