/** The pinned methods, and whether an entry made under a revision answers under the pinned one. */
import type { StepRef } from '../entries.ts'
import { type Ask, type MethodDoc, type StepDoc, stepsOf, stepText } from '../method.ts'
import { sorted } from './order.ts'

export type Methods = { readonly [digest: string]: MethodDoc }
export type PinnedStep = { readonly method: MethodDoc; readonly step: StepDoc }
export type StepPlace = { readonly method: string; readonly step: string }
export type Pinned = {
  /** As the shown pin names them. */
  readonly digests: readonly string[]
  /** The pinned methods that are held, in order; a second revision of one method is ignored. */
  readonly methods: readonly MethodDoc[]
  readonly missing: readonly string[]
  /** Their steps, in order. */
  readonly steps: readonly PinnedStep[]
  readonly find: (at: StepPlace) => PinnedStep | undefined
  /** False if the entry stands under its own revision only, and the step is open. */
  readonly answers: (ref: StepRef) => boolean
}

export function askName(at: StepPlace & { readonly ask: string }): string {
  return `${at.method}\n${at.step}\n${at.ask}`
}

export function methodOf(methods: Methods, digest: string): MethodDoc | undefined {
  return Object.hasOwn(methods, digest) ? methods[digest] : undefined
}

export function pinnedOf(digests: readonly string[], methods: Methods): Pinned {
  const byId = new Map<string, string>()
  for (const digest of digests) {
    const id = methodOf(methods, digest)?.id
    if (id !== undefined && !byId.has(id)) byId.set(id, digest)
  }
  const held = [...byId.values()].flatMap((digest) => methodOf(methods, digest) ?? [])
  const steps = held.flatMap((method) => stepsOf(method).map((step) => ({ method, step })))
  const find = finder(steps)
  return {
    digests,
    methods: held,
    missing: sorted(digests.filter((digest) => methodOf(methods, digest) === undefined)),
    steps,
    find,
    answers: answerTest(byId, find, methods),
  }
}

function finder(steps: readonly PinnedStep[]): Pinned['find'] {
  const byPlace = new Map<string, PinnedStep>()
  for (const one of steps) {
    const name = `${one.method.id}\n${one.step.id}`
    if (!byPlace.has(name)) byPlace.set(name, one)
  }
  return (at) => byPlace.get(`${at.method}\n${at.step}`)
}

function answerTest(
  byId: ReadonlyMap<string, string>,
  find: Pinned['find'],
  methods: Methods,
): Pinned['answers'] {
  const known = new Map<string, boolean>()
  return (ref) => {
    const pinned = byId.get(ref.method)
    if (pinned === undefined || pinned === ref.digest) return true
    const name = `${ref.digest}\n${ref.method}\n${ref.step}`
    const same = known.get(name) ?? isSameStep(ref, find(ref), methodOf(methods, ref.digest))
    known.set(name, same)
    return same
  }
}

function isSameStep(ref: StepRef, pinned: PinnedStep | undefined, own: MethodDoc | undefined): boolean {
  if (own === undefined || own.id !== ref.method || pinned === undefined) return false
  const made = stepsOf(own).find((step) => step.id === ref.step)
  return made !== undefined && stepText(made) === stepText(pinned.step)
}

export function askOf<K extends Ask['kind']>(
  one: PinnedStep | undefined,
  id: string,
  kind: K,
): Extract<Ask, { kind: K }> | undefined {
  const ask = one?.step.asks.find((each) => each.id === id)
  return ask?.kind === kind ? (ask as Extract<Ask, { kind: K }>) : undefined
}

export function positionsOf(one: PinnedStep, group: string): readonly string[] {
  return one.method.groups.find((each) => each.id === group)?.positions ?? []
}
