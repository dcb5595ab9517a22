/** A computation's question, gathered from earlier entries, with the hashes of those it rests on. */
import type { Input, Quantity, Rivets } from '../computations/inputs.ts'
import type { Question } from '../computations/question.ts'
import { FACTS, RANGE } from '../computations/sheets.ts'
import { type Entry, isRunReading } from '../entries.ts'
import { inputsAt, isCounted, type Spot, spotsOf } from '../fold/tally.ts'
import type { ComputeAsk, ComputeInput, HeatSettings, Ladder } from '../method.ts'
import type { Rivet } from '../tally.ts'
import { positionsOf } from './answers.ts'
import { type Card, methodsOf, type StepPlace } from './card.ts'
import { type Found, foundAt, ladderOf, type Source, type Wait } from './compute_sources.ts'
import { planOf } from './plan_input.ts'
import {
  digestsOf,
  inputOf,
  quantityOf,
  type SheetUse,
  sheetFacts,
  sheetInputs,
  sheetTables,
  type TableUse,
  tableFrom,
} from './sheet_inputs.ts'

/** One input as the screen shows it; constants of the method, and figures of a sheet, have no sources. */
export type InputView = {
  readonly name: string
  readonly input: Input
  readonly sources: readonly Source[]
  readonly sheet?: SheetUse
  /** The rows of a sheet in the place of the method's. */
  readonly table?: TableUse
}
export type Gathered = {
  readonly question: Question
  readonly inputs: readonly InputView[]
  /** What is not there yet: nothing is worked out before. */
  readonly waits: readonly Wait[]
  /** Of the entries used, sorted. */
  readonly hashes: readonly string[]
  /** Digests of what it rests on beside entries: suppliers' sheets. */
  readonly tables: readonly string[]
}
/** The instant of asking, on the wall clock of the entry that `since` counts from. */
export type Asking = { readonly at_ms: (started_ms: number, source: Source | undefined) => number }

const TIMES = ['started']
/** Facts say their unit in their names. */
const UNIT_OF_NAME = /_(mm)$/
const NO_TIME: Asking = { at_ms: () => 0 }
type TallyEntry = Extract<Entry, { kind: 'tally' }>

export function gather(card: Card, place: StepPlace, ask: ComputeAsk, asking: Asking = NO_TIME): Gathered {
  const sheets = { inputs: sheetInputs(card, ask), facts: sheetFacts(card, ask) }
  const tables = sheetTables(card, ask)
  const read = (ask.inputs ?? []).map((one) => ({ name: one.name, found: foundOf(card, one) }))
  const answers = read.flatMap(({ name, found }): InputView[] => {
    const sheet = sheets.inputs[name]
    if (sheet !== undefined) return [{ name, input: inputOf(sheet), sources: [], sheet }]
    return found.input === undefined ? [] : [{ name, input: found.input, sources: found.sources }]
  })
  const inputs = withTables(answers, tables)
  const plan = planOf(card, place, ask)
  const tally = tallyOf(card, ask)
  const named = Object.fromEntries([
    ...inputs.map(({ name, input }) => [name, input] as const),
    ...(plan === undefined ? [] : [['plan', plan.input] as const]),
    ...(tally === undefined ? [] : [['tallies', tally.input] as const]),
  ])
  const damaged = damagedOf(card, ask)
  const about = aboutOf(card, place, ask)
  const facts = Object.entries(sheets.facts).map(([name, use]) => [name, quantityOf(use)] as const)
  return {
    question: {
      ...about,
      facts: { ...about.facts, ...Object.fromEntries(facts) },
      inputs: named,
      damaged: damaged.positions,
      ...timeOf(inputs, asking),
      ...logOf(card, ask, named),
    },
    inputs: [
      ...inputs,
      ...factViews(ask, about.facts, sheets.facts),
      ...(plan === undefined ? [] : [{ name: 'plan', input: plan.input, sources: [] }]),
      ...(tally === undefined ? [] : [{ name: 'tallies', input: tally.input, sources: [] }]),
    ],
    waits: read.flatMap(({ name, found }) => found.waits.map((wait) => ({ ...wait, input: name }))),
    hashes: sortedOnce([
      ...read.flatMap(({ found }) => found.hashes),
      ...(tally?.hashes ?? []),
      ...damaged.hashes,
    ]),
    tables: sortedOnce([...digestsOf(sheets.inputs, sheets.facts, tables), ...(plan ? [plan.sha256] : [])]),
  }
}

/** A sheet's rows in their place; a range that they make idle is gone. */
function withTables(
  answers: readonly InputView[],
  tables: ReturnType<typeof sheetTables>,
): readonly InputView[] {
  const uses = Object.entries(tables)
  if (uses.length === 0) return answers
  const others = answers.filter(({ name }) => tables[name] === undefined && !RANGE.includes(name))
  return [...others, ...uses.map(([name, table]) => ({ name, input: table.table, sources: [], table }))]
}

function foundOf(card: Card, one: ComputeInput): Found {
  const constant = (input: Input): Found => ({ input, sources: [], waits: [], hashes: [] })
  if ('text' in one) return constant({ kind: 'word', text: one.text })
  if ('rows' in one) return constant(tableFrom(one))
  if ('value' in one) {
    return constant({ kind: 'quantity', value: one.value, unit: one.unit, decimals: one.decimals })
  }
  return merged(one.from.map((ref) => foundAt(card, ref, TIMES.includes(one.name))))
}

/** Several answers of one input: runs one after another; of other kinds a method names one. */
function merged(all: readonly Found[]): Found {
  const [first] = all
  const runs = all.flatMap(({ input }) => (input?.kind === 'runs' ? input.runs : []))
  return {
    input: runs.length > 0 ? { kind: 'runs', runs } : first?.input,
    sources: all.flatMap((one) => one.sources),
    waits: all.flatMap((one) => one.waits),
    hashes: all.flatMap((one) => one.hashes),
  }
}

function timeOf(inputs: readonly InputView[], asking: Asking): Pick<Question, 'asked_at_ms'> {
  const started = inputs.find(({ name }) => TIMES.includes(name))
  return started?.input.kind === 'moment'
    ? { asked_at_ms: Math.round(asking.at_ms(started.input.at_ms, started.sources[0])) }
    : {}
}

/** Every unstruck reading of the coldest place since the start, those that a later one replaced too. */
function logOf(
  card: Card,
  ask: ComputeAsk,
  { started, coldest }: { readonly [name: string]: Input },
): Pick<Question, 'log'> {
  if (started?.kind !== 'moment' || coldest?.kind !== 'quantity') return {}
  const gone = new Set([...card.state.aside, ...card.state.struck.map((strike) => strike.target)])
  const from = (ask.inputs ?? []).flatMap((one) => (one.name === 'coldest' && 'from' in one ? one.from : []))
  const log = [...card.entries.values()].flatMap(({ entry }) => {
    if (entry.kind !== 'reading' || isRunReading(entry.body) || gone.has(entry.hash)) return []
    const { method, step, ask: id, value, decimals } = entry.body
    const isNamed = from.some((ref) => ref.method === method && ref.step === step && ref.ask === id)
    if (!isNamed || decimals !== coldest.decimals || entry.at_ms < started.at_ms) return []
    return [[entry.at_ms, value] as const]
  })
  return { log: log.sort(([a, x], [b, y]) => a - b || x - y) }
}

/** The things of the method that the ask is about. */
function aboutOf(
  card: Card,
  place: StepPlace,
  ask: ComputeAsk,
): Omit<Question, 'inputs'> & { readonly facts: Quantities } {
  const { method } = place
  const groups = ask.groups ?? []
  const set = method.point_sets?.find((one) => one.id === ask.points)
  const settings = settingsOf(card, ask)
  return {
    computation: ask.computation,
    groups: method.groups.filter((one) => groups.includes(one.id)),
    places: (set?.points ?? []).flatMap(({ id, at_mm }) => (at_mm === undefined ? [] : [{ id, at_mm }])),
    facts: factsOf(card),
    ...(settings === undefined ? {} : { settings }),
  }
}

type Quantities = { readonly [name: string]: Omit<Quantity, 'kind'> }

/** Figures of all pinned methods; the later method's word counts. */
function factsOf(card: Card): Quantities {
  const facts = methodsOf(card).flatMap(({ facts: own }) => own ?? [])
  return Object.fromEntries(
    facts.flatMap((one) =>
      'value' in one ? [[one.name, { value: one.value, unit: '', decimals: one.decimals }] as const] : [],
    ),
  )
}

/** What the computation reads of the method's facts, or of the sheet in their place. */
function factViews(
  { computation }: ComputeAsk,
  facts: Quantities,
  uses: ReturnType<typeof sheetFacts>,
): readonly InputView[] {
  return Object.keys(FACTS[computation] ?? {}).flatMap((name): InputView[] => {
    const [fact, use] = [facts[name], uses[name]]
    const own = fact && { ...fact, unit: UNIT_OF_NAME.exec(name)?.[1] ?? fact.unit }
    if (use !== undefined) {
      return [{ name, input: inputOf(use), sources: [], sheet: own ? { ...use, instead: own } : use }]
    }
    return own === undefined ? [] : [{ name, input: { kind: 'quantity', ...own }, sources: [] }]
  })
}

/** Settings of the run of that zone and purpose, where a pinned method has one. */
function settingsOf(card: Card, { zone, purpose }: ComputeAsk): Quantities | undefined {
  if (!zone || !purpose) return undefined
  for (const { step } of card.steps) {
    for (const ask of step.asks) {
      if (ask.kind !== 'heat_run' || ask.continues !== undefined) continue
      if (ask.zone === zone && ask.purpose === purpose) return quantitiesOf(ask.settings)
    }
  }
  return undefined
}

const UNITS: { readonly [name: string]: string } = {
  soak_s: 's',
  gap_max_s: 's',
  ramp_s: 's',
  ramp_max: 'K/min',
  cooling_max: 'K/min',
}

function quantitiesOf({ sensors_unit, decimals, release: _release, ...figures }: HeatSettings): Quantities {
  return Object.fromEntries(
    Object.entries(figures).map(([name, value]) => {
      const unit = UNITS[name] ?? sensors_unit
      return [name, { value, unit, decimals: unit === 's' ? 0 : decimals }]
    }),
  )
}

/** The rivets of the groups: those found on the car for taking out, those that were set for setting, else all. */
function tallyOf(
  card: Card,
  ask: ComputeAsk,
): { readonly input: Rivets; readonly hashes: readonly string[] } | undefined {
  if (ask.computation !== 'tally_reconciliation') return undefined
  const ladder = ladderOf(card, ask)
  const spots = spotsOf(liveTally(card))
  const positions = positionsOf(card, ask.groups ?? []).map(({ position }) => position)
  const rivets = positions.flatMap((position) => {
    const spot = spots.get(position)
    return spot === undefined ? [] : rivetsAt(card, spot, ladder)
  })
  return {
    input: { kind: 'rivets', ladder: ladder ?? 'taking_out', rivets },
    hashes: inputsAt(spots, positions, ladder),
  }
}

function rivetsAt(card: Card, spot: Spot, ladder: Ladder | undefined): readonly Rivet[] {
  const marks = spot.marks.map((mark) => ({ ...mark, generation: generationOf(card, mark.hash) }))
  const counted = spot.rivets.filter(({ generation }) => isCounted(generation, ladder))
  return counted.map(({ generation, deciding }) => ({
    position: spot.position,
    generation,
    state: deciding?.body.state ?? '',
    lost: marks.flatMap((one) =>
      one.mark === 'lost' && one.open && one.generation === generation && one.piece !== '' ? [one.piece] : [],
    ),
  }))
}

function liveTally(card: Card): readonly TallyEntry[] {
  const dead = new Set([...card.state.aside, ...card.state.struck.map((strike) => strike.target)])
  return [...card.entries.values()].flatMap(({ entry }) =>
    entry.kind === 'tally' && !dead.has(entry.hash) ? [entry] : [],
  )
}

function generationOf(card: Card, hash: string): number {
  const entry = card.entries.get(hash)?.entry
  return entry?.kind === 'tally' ? entry.body.generation : 0
}

/** Open marks of damaged holes at the groups' positions, for a decision about holes. */
function damagedOf(
  card: Card,
  ask: ComputeAsk,
): { readonly positions: readonly string[]; readonly hashes: readonly string[] } {
  if (ask.computation !== 'hole_decision') return { positions: [], hashes: [] }
  const marked = positionsOf(card, ask.groups ?? []).flatMap(({ position, marks }) =>
    marks
      .filter((one) => one.mark === 'damaged_hole' && one.open)
      .map((one) => ({ position, hash: one.hash })),
  )
  return {
    positions: [...new Set(marked.map((one) => one.position))],
    hashes: marked.map((one) => one.hash),
  }
}

function sortedOnce(hashes: readonly string[]): readonly string[] {
  return [...new Set(hashes)].sort()
}
