/** The fold: what all entries of a job add up to, the same in any order, from this and from nothing else. */
import type { Entry } from '../entries.ts'
import type { CardState, JobState } from '../state.ts'
import { evidenceOf } from './answers.ts'
import { conditionFindings, conditionsOf } from './conditions.ts'
import { countersignsOf } from './countersigns.ts'
import { listed } from './finding.ts'
import { type Ground, groundOf, jobRegister } from './ground.ts'
import { unstruck } from './log.ts'
import { lotsOf } from './lots.ts'
import { hashesOf, sorted } from './order.ts'
import { elsewhereOf, recordFindings } from './record_findings.ts'
import { registerStates } from './registers.ts'
import type { Methods } from './revisions.ts'
import { runFindings } from './run_findings.ts'
import { stepFindings } from './step_findings.ts'
import { stepsOfCard } from './steps.ts'
import { countsOf, piecesOf } from './tally.ts'
import { tallyFindings } from './tally_findings.ts'

export type { Methods }

export const FOLD_VERSION = 2

/** Card state from methods by digest and a job's entries, in any order, with duplicates. Throws never. */
export function fold(methods: Methods, entries: readonly Entry[]): CardState {
  return stateOn({ methods, entries, ground: groundOf(methods, entries) })
}

export type Folded = {
  readonly methods: Methods
  readonly entries: readonly Entry[]
  readonly ground: Ground
}

/** What each state was folded from, for as long as somebody holds the state: `grown.ts` goes on from it. */
const FOLDED = new WeakMap<CardState, Folded>()

export function foldedFrom(state: CardState): Folded | undefined {
  return FOLDED.get(state)
}

export function stateOn(folded: Folded): CardState {
  const state = stateWithFindings(folded.ground)
  FOLDED.set(state, folded)
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
