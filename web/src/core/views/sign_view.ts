/** A countersign: what is seen, and who may sign it. */

import { type Entry, isTallyMark } from '../entries.ts'
import { grouped } from '../fold/order.ts'
import { positionsOf, type Sign, signsOf } from './answers.ts'
import { bodyOf, type Card, isStruck, knownOf, type Somebody, type StepPlace } from './card.ts'
import { holds, onTheJob } from './who_view.ts'

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

/** What is signed, told together where it answers one ask; what is outside its limits stands alone. */
export function seenTogether(card: Card, saw: readonly string[]): readonly (readonly Entry[])[] {
  const seen = saw.flatMap((hash) => knownOf(card, hash)?.entry ?? [])
  const groups = grouped(seen, (entry) =>
    isOutsideLimits(card, entry.hash) ? entry.hash : togetherBy(entry),
  )
  return [...groups.values()]
}

function togetherBy(entry: Entry): string {
  if (entry.kind === 'tally') return isTallyMark(entry.body) ? entry.hash : 'tally'
  return entry.kind === 'reading' && 'ask' in entry.body ? `${entry.kind}/${entry.body.ask}` : entry.hash
}

export type Signers = {
  /** The person of this phone may sign it on their own account. */
  readonly own: boolean
  /** Everybody else who may, those on the job first. */
  readonly others: readonly Somebody[]
  /** Those of them who are on the job, for a line that says who has to come. */
  readonly named: readonly Somebody[]
  /** Somebody who would hold what is asked, but made one of the records. */
  readonly ownValue: boolean
}

export function signersOf(card: Card, saw: readonly string[], demand: string, me: string): Signers {
  const authors = new Set(saw.map((hash) => knownOf(card, hash)?.entry.by))
  const able = [...card.people.values()].filter((person) => holds(person, demand))
  const free = able.filter((person) => !authors.has(person.id))
  const others = free.filter((person) => person.id !== me)
  const named = onTheJob(card, others)
  return {
    own: free.some((person) => person.id === me),
    others: [...named, ...others.filter((person) => !named.includes(person))],
    named,
    ownValue: able.some((person) => person.id === me && authors.has(me)),
  }
}

/** A hold passed by deviation may itself want a second name. */
export function deviationWantsSign(card: Card, place: StepPlace): boolean {
  if (place.step.hold_countersign === '' || place.state.hold !== 'held') return false
  const counted = signsOf(card, place, '').some((sign) => sign.state.counts)
  return holdDeviations(card, place).length > 0 && !counted
}

/** What a countersign saw that stands no more: struck, or recorded again; `now` is what stands in its place. */
export type Changed = { readonly was: Entry; readonly now: Entry | undefined }

export function changedSince(card: Card, { known }: Sign): readonly Changed[] {
  const body = known.entry.kind === 'countersign' ? known.entry.body : undefined
  const standing = new Map(card.state.registers.flatMap((one) => one.standing.map((hash) => [hash, one])))
  return (body?.saw ?? []).flatMap((hash) => {
    const was = knownOf(card, hash)?.entry
    const gone = isRegisterKind(was) && (isStruck(card, hash) || !standing.has(hash))
    return gone ? [{ was, now: standsFor(card, was) }] : []
  })
}

type RegisterEntry = Extract<Entry, { kind: (typeof REGISTERS)[number] | 'tick' }>

function isRegisterKind(entry: Entry | undefined): entry is RegisterEntry {
  return entry !== undefined && (entry.kind === 'tick' || REGISTERS.some((kind) => kind === entry.kind))
}

function standsFor(card: Card, was: RegisterEntry): Entry | undefined {
  const of = was.body as { method?: string; step?: string; ask?: string; point?: string }
  const register = card.state.registers.find(
    (one) =>
      one.kind === was.kind &&
      one.method === of.method &&
      one.step === of.step &&
      one.ask === of.ask &&
      one.point === (of.point ?? ''),
  )
  return knownOf(card, register?.shown ?? '')?.entry
}
