/** Who may take a step or sign it: the person who holds this phone, and who on the job may. */
import type { Card, Somebody, StepPlace } from './card.ts'

/** Whether a person holds what is asked: a role or a qualification. */
export function holds(person: Pick<Somebody, 'roles' | 'qualifications'>, demand: string): boolean {
  const role = demand === 'second_person' ? 'technician' : demand
  return person.roles.includes(role) || person.qualifications.includes(role)
}

/** Those of them who are on the job; where none is, all of them: the office is on every job. */
export function onTheJob(card: Card, people: readonly Somebody[]): readonly Somebody[] {
  const here = people.filter((person) => card.state.job.assigned.includes(person.id))
  return here.length > 0 ? here : people
}

export type Takers = {
  /** What the step asks of who does it, any of these; empty where any technician may. */
  readonly demands: readonly string[]
  readonly mine: boolean
  readonly others: readonly Somebody[]
}

/** Who takes a step; `as` is what the person of this phone holds. */
export function takersOf(card: Card, { step }: StepPlace, me: { by: string; as: readonly string[] }): Takers {
  const demands = step.who.includes('technician') ? [] : step.who
  const mine = demands.length === 0 || demands.some((one) => me.as.includes(one) || isSecond(one, me.as))
  const able = [...card.people.values()].filter(
    (person) => person.id !== me.by && demands.some((one) => holds(person, one)),
  )
  return { demands, mine, others: onTheJob(card, able) }
}

function isSecond(demand: string, as: readonly string[]): boolean {
  return demand === 'second_person' && as.includes('technician')
}
