/** What methods demand of people, and who of a job can give it. */
import { type Ask, type MethodDoc, type StepDoc, stepsOf } from '../method.ts'

export type Abilities = {
  readonly person: string
  readonly name: string
  readonly roles: readonly string[]
  readonly qualifications: readonly string[]
}

/** `does`: steps for whom it is; `signs`: countersigns that ask for it. A second person is another technician. */
export type Demand = {
  readonly id: string
  readonly does: readonly string[]
  readonly signs: readonly string[]
  readonly onJob: readonly Abilities[]
  readonly inShop: readonly Abilities[]
  readonly met: boolean
}

const SECOND = 'second_person'
const TECHNICIAN = 'technician'
const OFFICE = 'office'

const signsOf = (step: StepDoc): readonly string[] => [
  ...step.asks.flatMap((ask: Ask) => (ask.kind === 'countersign' ? [ask.of] : [])),
  ...(step.hold_countersign === '' ? [] : [step.hold_countersign]),
]

/** The same rule as the fold's: a second person is a technician, all else is a role or a qualification held. */
export function canGive(person: Abilities, demand: string): boolean {
  const wanted = demand === SECOND ? TECHNICIAN : demand
  return person.roles.includes(wanted) || person.qualifications.includes(wanted)
}

/** One to do the work and another to sign it: a second person takes two. */
const isMet = (demand: string, onJob: readonly Abilities[]): boolean =>
  onJob.length >= (demand === SECOND ? 2 : 1)

function demandOf(
  id: string,
  steps: readonly StepDoc[],
  people: readonly Abilities[],
  chosen: ReadonlySet<string>,
): Demand {
  const able = people.filter((person) => canGive(person, id))
  // The office is on every job, assigned or not.
  const isOn = (person: Abilities): boolean => id === OFFICE || chosen.has(person.person)
  const onJob = able.filter(isOn)
  return {
    id,
    does: steps.filter((step) => step.who.includes(id)).map((step) => step.title),
    signs: steps.filter((step) => signsOf(step).includes(id)).map((step) => step.title),
    onJob,
    inShop: able.filter((person) => !isOn(person)),
    met: isMet(id, onJob),
  }
}

/** Those that nobody on the job meets first, then in the order of the work. */
export function demandsOf(
  methods: readonly MethodDoc[],
  people: readonly Abilities[],
  chosen: readonly string[],
): readonly Demand[] {
  const steps = methods.flatMap((method) => stepsOf(method))
  const ids = [...new Set(steps.flatMap((step) => [...step.who, ...signsOf(step)]))]
  const on = new Set(chosen)
  const demands = ids.map((id) => demandOf(id, steps, people, on))
  return [...demands.filter((one) => !one.met), ...demands.filter((one) => one.met)]
}

/** A method that another has to come before, and does not. */
export type MissingBefore = { readonly method: string; readonly needs: string }

/** Methods whose `needs_method` does not stand before them in this order. */
export function missingBefore(methods: readonly MethodDoc[]): readonly MissingBefore[] {
  return methods.flatMap((method, at) => {
    const needs = method.needs_method ?? ''
    const before = methods.slice(0, at).some((other) => other.id === needs)
    return needs === '' || before ? [] : [{ method: method.title, needs }]
  })
}
