/** The fold: what all entries of a job add up to, the same in any order, from this and from nothing else. */
import type { Entry } from '../entries.ts'
import type { CardState, JobState } from '../state.ts'
import { evidenceOf } from './answers.ts'
import { conditionFindings, conditionsOf } from './conditions.ts'
import { countersignsOf } from './countersigns.ts'
import { listed } from './finding.ts'
import { type Ground, groundOf, grownGround, jobRegister } from './ground.ts'
import { unstruck } from './log.ts'
import { lotsOf } from './lots.ts'
import { hashesOf, sorted } from './order.ts'
import { elsewhereOf, recordFindings } from './record_findings.ts'
import { registerStates } from './registers.ts'
import { type Methods, methodOf } from './revisions.ts'
import { runFindings } from './run_findings.ts'
import { stepFindings } from './step_findings.ts'
import { stepsOfCard } from './steps.ts'
import { countsOf, piecesOf } from './tally.ts'
import { tallyFindings } from './tally_findings.ts'

export type { Methods }

export const FOLD_VERSION = 2

/**
 * Card state from methods by digest and a job's entries, in any order, with duplicates. Throws never.
 *
 * `before` is an earlier state: where its entries begin these, the same state is found with less work.
 */
export function fold(methods: Methods, entries: readonly Entry[], before?: CardState): CardState {
  const added = addedSince(before, methods, entries)
  if (before !== undefined && added?.entries.length === 0) return before
  const grown = added && grownGround(added.ground, methods, added.entries)
  const ground = grown ?? groundOf(methods, entries)
  const state = stateWithFindings(ground)
  FOLDED.set(state, { methods, entries, ground })
  return state
}

function stateWithFindings(ground: Ground): CardState {
  const state = stateOf(ground)
  const founds = [
    ...recordFindings(ground),
    ...tallyFindings(ground),
    ...runFindings(ground),
    ...stepFindings(ground, state),
    ...conditionFindings(ground),
  ]
  return { ...state, findings: listed(ground, founds) }
}

type Folded = { readonly methods: Methods; readonly entries: readonly Entry[]; readonly ground: Ground }

/** What each state was folded from, for as long as somebody holds the state. */
const FOLDED = new WeakMap<CardState, Folded>()

/** The ground of an earlier state and the entries that came after it; undefined if it was folded from others. */
function addedSince(
  before: CardState | undefined,
  methods: Methods,
  entries: readonly Entry[],
): Pick<Folded, 'ground' | 'entries'> | undefined {
  const folded = before && FOLDED.get(before)
  if (folded === undefined || !areSame(folded.methods, methods)) return undefined
  if (!folded.entries.every((entry, index) => entries[index] === entry)) return undefined
  return { ground: folded.ground, entries: entries.slice(folded.entries.length) }
}

function areSame(one: Methods, other: Methods): boolean {
  const digests = Object.keys(one)
  return (
    digests.length === Object.keys(other).length &&
    digests.every((digest) => methodOf(one, digest) === methodOf(other, digest))
  )
}

function stateOf(ground: Ground): Omit<CardState, 'findings'> {
  const { log, pinned, registers, photos, tally, runs } = ground
  const { slots } = photos
  const lots = lotsOf(ground)
  const countersigns = countersignsOf(ground)
  return {
    fold: FOLD_VERSION,
    count: log.everything.size,
    aside: log.aside,
    unknown: log.unknown,
    struck: [...log.struck]
      .map(([target, by]) => ({ target, by }))
      .sort((a, b) => (a.target < b.target ? -1 : 1)),
    job: jobState(ground),
    missing_methods: pinned.missing,
    registers: registerStates(registers),
    elsewhere: hashesOf(elsewhereOf(ground)),
    steps: stepsOfCard(evidenceOf(ground, slots, lots, countersigns)),
    slots,
    loose_photos: photos.loose,
    lots,
    positions: tally.positions,
    counts: countsOf(tally.positions),
    pieces: piecesOf(tally),
    runs: runs.runs.map((run) => run.state),
    conditions: conditionsOf(ground),
    deviations: hashesOf(unstruck(log, 'deviation')),
    notes: hashesOf(unstruck(log, 'note')),
    countersigns,
    heard: hashesOf(unstruck(log, 'heard')),
    clock: hashesOf(unstruck(log, 'clock')),
  }
}

function jobState(ground: Ground): JobState {
  const life = jobRegister(ground, 'life')?.shown
  return {
    open: jobRegister(ground, 'open')?.shown?.hash ?? '',
    place: jobRegister(ground, 'place')?.shown?.hash ?? '',
    pin: jobRegister(ground, 'pin')?.shown?.hash ?? '',
    life: life?.hash ?? '',
    closed: life?.kind === 'close',
    filed: hashesOf(unstruck(ground.log, 'file')),
    assigned: assignedIn(ground),
  }
}

function assignedIn({ registers }: Ground): string[] {
  const shown = [...registers.values()].flatMap((register) => register.shown ?? [])
  return sorted(
    shown.flatMap((entry) => (entry.kind === 'assign' && entry.body.on ? [entry.body.person] : [])),
  )
}
