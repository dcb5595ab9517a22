/** A job as the phone's screens read it: its state, its entries by hash, its pinned steps in order. */
import type { MaterialSheet } from '../computations/sheets.ts'
import { type Entry, isKind, type Kind } from '../entries.ts'
import { fold } from '../fold/index.ts'
import { grownMap } from '../grown_map.ts'
import { type Ask, type MethodDoc, type StepDoc, stepsOf } from '../method.ts'
import type { CardState, RegisterState, StepState } from '../state.ts'
import type { CardPlan } from './card_plans.ts'
import type { RunView } from './heat_view.ts'

/** An entry with what this device knows about it. */
export type Known = {
  readonly entry: Entry
  readonly where: 'phone' | 'office'
  readonly order: number
  readonly received_ms?: number
  readonly offset_ms?: number
  readonly fate?: { readonly fate: 'taken' | 'set_aside' | 'refused'; readonly code: string }
}

export type Somebody = {
  readonly id: string
  readonly name: string
  readonly roles: readonly string[]
  readonly qualifications: readonly string[]
}

/** A step where it stands: its number counts through all pinned methods from 1. */
export type StepPlace = {
  readonly number: number
  readonly method: MethodDoc
  readonly digest: string
  readonly stage: { readonly number: number; readonly title: string; readonly starts: boolean }
  readonly step: StepDoc
  readonly state: StepState
}

export type Card = {
  readonly job: string
  readonly state: CardState
  readonly entries: ReadonlyMap<string, Known>
  readonly steps: readonly StepPlace[]
  readonly people: ReadonlyMap<string, Somebody>
  /** Runs that are not cold yet, the latest first; `withHotRuns` looks for them. */
  readonly hotRuns: readonly RunView[]
  /** Suppliers' sheets in use, one a material; `model` brings them. */
  readonly sheets?: readonly MaterialSheet[]
  /** Heat plans pinned to this job's zones, once they are read. */
  readonly plans?: readonly CardPlan[]
}

/** `folding` is how its entries are folded: all of them, or the new ones onto the state of the card `before`. */
export function cardOf(
  job: string,
  stored: readonly Known[],
  methods: Readonly<Record<string, MethodDoc>>,
  people: readonly Somebody[],
  folding: typeof fold = fold,
  before?: Card,
): Card {
  const entries = byHash(stored, before?.entries)
  const state = folding(
    methods,
    stored.map((known) => known.entry),
  )
  const pin = bodyOf({ entries }, state.job.pin, 'pin')
  const pinned = (pin?.methods ?? []).flatMap((digest) => {
    const method = methods[digest]
    return method === undefined ? [] : [{ digest, method }]
  })
  return {
    job,
    state,
    entries,
    steps: placesOf(pinned, state),
    people: new Map(people.map((one) => [one.id, one])),
    hotRuns: [],
  }
}

/** What each map of a card's entries was made from, for as long as somebody holds the map. */
const LISTED = new WeakMap<Card['entries'], readonly Known[]>()

function byHash(stored: readonly Known[], before: Card['entries'] | undefined): Card['entries'] {
  const listed = (before && LISTED.get(before)) ?? []
  const goesOn = before !== undefined && listed.every((known, at) => known === stored[at])
  const named = (list: readonly Known[]) => list.map((known) => [known.entry.hash, known] as const)
  const entries = goesOn ? grownMap(before, named(stored.slice(listed.length))) : new Map(named(stored))
  LISTED.set(entries, stored)
  return entries
}

function placesOf(
  pinned: readonly { digest: string; method: MethodDoc }[],
  state: CardState,
): readonly StepPlace[] {
  const places: StepPlace[] = []
  let stageNumber = 0
  for (const { digest, method } of pinned) {
    for (const stage of method.stages) {
      stageNumber += 1
      for (const [index, step] of stage.steps.entries()) {
        const found = state.steps.find((one) => one.method === method.id && one.step === step.id)
        if (found === undefined) continue
        const where = { number: stageNumber, title: stage.title, starts: index === 0 }
        places.push({ number: places.length + 1, method, digest, stage: where, step, state: found })
      }
    }
  }
  return places
}

/** The pinned methods that have a step, in their order. */
export function methodsOf(card: Pick<Card, 'steps'>): readonly MethodDoc[] {
  return [...new Set(card.steps.map((place) => place.method))]
}

export function knownOf(card: Pick<Card, 'entries'>, hash: string): Known | undefined {
  return card.entries.get(hash)
}

/** The body of the entry with this hash, if it is here and of this kind. */
export function bodyOf<K extends Kind>(
  card: Pick<Card, 'entries'>,
  hash: string,
  kind: K,
): Entry<K>['body'] | undefined {
  const entry = card.entries.get(hash)?.entry
  return entry !== undefined && isKind(entry, kind) ? (entry.body as Entry<K>['body']) : undefined
}

export function placeOf(card: Card, method: string, step: string): StepPlace | undefined {
  return card.steps.find((place) => place.method.id === method && place.step.id === step)
}

export function askOf(place: StepPlace, ask: string): Ask | undefined {
  return place.step.asks.find((one) => one.id === ask)
}

/** The register of a step's value; undefined while nobody has answered it. */
export function registerOf(
  card: Card,
  place: StepPlace,
  kind: RegisterState['kind'],
  ask: string,
  point = '',
): RegisterState | undefined {
  return card.state.registers.find(
    (one) =>
      one.kind === kind &&
      one.method === place.method.id &&
      one.step === place.step.id &&
      one.ask === ask &&
      one.point === point,
  )
}

/** The finding codes that name this step, ask or point, without the accepted ones. */
export function findingsAt(card: Card, at: readonly string[]): readonly CardState['findings'][number][] {
  return card.state.findings.filter(
    (finding) => finding.accepted === '' && at.every((id, index) => finding.at[index] === id),
  )
}

export function isStruck(card: Card, hash: string): boolean {
  return card.state.struck.some((strike) => strike.target === hash)
}

/** All steps that this method revision has, for screens that only need their ids. */
export function stepIds(method: MethodDoc): readonly string[] {
  return stepsOf(method).map((step) => step.id)
}
