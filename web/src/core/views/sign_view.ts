/** A countersign: what is seen, and who may sign it. */

import { positionsOf, signsOf } from './answers.ts'
import { bodyOf, type Card, knownOf, type Somebody, type StepPlace } from './card.ts'

const REGISTERS = ['text', 'choice', 'reading', 'result'] as const

/** The hashes that a countersign of this step has to name; with an empty ask, its hold deviations. */
export function sawOf(card: Card, place: StepPlace, ask: string): readonly string[] {
  if (ask === '') return holdDeviations(card, place)
  const shown = card.state.registers
    .filter((one) => one.method === place.method.id && one.step === place.step.id && one.shown !== '')
    .filter((one) => REGISTERS.some((kind) => kind === one.kind) || (one.kind === 'tick' && one.ask !== ''))
    .map((one) => one.shown)
  const groups = place.step.asks.flatMap((one) => (one.kind === 'tally' ? [one.group] : []))
  const rivets = positionsOf(card, groups).flatMap((one) => (one.deciding === '' ? [] : [one.deciding]))
  return [...shown, ...rivets]
}

export function holdDeviations(card: Card, place: StepPlace): readonly string[] {
  return card.state.deviations.filter((hash) => {
    const body = bodyOf(card, hash, 'deviation')
    return body?.passes_hold === true && body.method === place.method.id && body.step === place.step.id
  })
}

/** Whether what is signed is itself a finding: who signs must be told, not left to know the limits. */
export function isOutsideLimits(card: Card, hash: string): boolean {
  return card.state.findings.some(({ code, hashes }) => code === 'outside_limits' && hashes.includes(hash))
}

function holds(person: Somebody, demand: string): boolean {
  const role = demand === 'second_person' ? 'technician' : demand
  return person.roles.includes(role) || person.qualifications.includes(role)
}

export type Signers = {
  /** The person of this phone may sign it on their own account. */
  readonly own: boolean
  readonly others: readonly Somebody[]
  /** Somebody who would hold what is asked, but made one of the records. */
  readonly ownValue: boolean
}

export function signersOf(card: Card, saw: readonly string[], demand: string, me: string): Signers {
  const authors = new Set(saw.map((hash) => knownOf(card, hash)?.entry.by))
  const able = [...card.people.values()].filter((person) => holds(person, demand))
  const free = able.filter((person) => !authors.has(person.id))
  return {
    own: free.some((person) => person.id === me),
    others: free.filter((person) => person.id !== me),
    ownValue: able.some((person) => person.id === me && authors.has(me)),
  }
}

/** A hold passed by deviation may itself want a second name. */
export function deviationWantsSign(card: Card, place: StepPlace): boolean {
  if (place.step.hold_countersign === '' || place.state.hold !== 'held') return false
  const counted = signsOf(card, place, '').some((sign) => sign.state.counts)
  return holdDeviations(card, place).length > 0 && !counted
}
