/**
 * The fold of a card to which a few entries came: the same state as `fold` gives, from less work.
 *
 * What the new entries leave as it was is taken over from the state before. Where one of them may change how an
 * earlier entry counts, everything is folded anew.
 */
import { type Entry, isKnown, type Kind } from '../entries.ts'
import { grownMap } from '../grown_map.ts'
import type { CardState } from '../state.ts'
import type { Ground } from './ground.ts'
import { fold, foldedFrom, type Methods, stateOn } from './index.ts'
import { type Log, ofKind } from './log.ts'
import { byText, byTexts, grouped } from './order.ts'
import { readPhotos } from './photos.ts'
import {
  byRegister,
  IN_ORDER,
  inOrder,
  type Register,
  type RegisterEntry,
  registerOf,
  valuesOf,
} from './registers.ts'
import { methodOf } from './revisions.ts'
import { readRuns } from './runs.ts'
import { readTally } from './tally.ts'

/** More at once than people write between two looks: to fold it whole costs no more. */
const FEW = 50

/** As `fold`; `before` is an earlier state of the same card. */
export function foldOnto(before: CardState, methods: Methods, entries: readonly Entry[]): CardState {
  const folded = foldedFrom(before)
  if (folded === undefined || !areSame(folded.methods, methods)) return fold(methods, entries)
  if (!folded.entries.every((entry, index) => entries[index] === entry)) return fold(methods, entries)
  const added = entries.slice(folded.entries.length)
  if (added.length === 0) return before
  const ahead = AHEAD.get(before)
  if (ahead?.added.length === added.length && ahead.added.every((entry, at) => entry === added[at]))
    return ahead.state
  const ground = added.length > FEW ? undefined : grownGround(folded.ground, methods, added)
  return ground === undefined ? fold(methods, entries) : stateOn({ methods, entries, ground })
}

type Ahead = { readonly added: readonly Entry[]; readonly state: CardState }

const AHEAD = new WeakMap<CardState, Ahead>()

/** Folds what is on its way to disk while nothing else is to do; `foldOnto` has it at once when it is there. */
export function foldAhead(before: CardState, added: readonly Entry[]): void {
  const folded = foldedFrom(before)
  if (folded === undefined) return
  AHEAD.set(before, { added, state: foldOnto(before, folded.methods, [...folded.entries, ...added]) })
}

function areSame(one: Methods, other: Methods): boolean {
  const digests = Object.keys(one)
  return (
    digests.length === Object.keys(other).length &&
    digests.every((digest) => methodOf(one, digest) === methodOf(other, digest))
  )
}

function grownGround(ground: Ground, methods: Methods, added: readonly Entry[]): Ground | undefined {
  if (!arePlain(ground.log, added)) return undefined
  const { pinned } = ground
  const log = grownLog(ground.log, added)
  const has = (...kinds: readonly Kind[]) => added.some(({ kind }) => kinds.includes(kind))
  return {
    log,
    pinned,
    ...grownRegisters(ground, log, added),
    photos: has('photo') ? readPhotos({ log, pinned }) : ground.photos,
    tally: has('tally') ? readTally(log, pinned) : ground.tally,
    runs: has('heat', 'reading') ? readRuns(log, methods) : ground.runs,
  }
}

/** Each new, known, no fork, named by nothing that acts, and acting on nothing itself. */
function arePlain(log: Log, added: readonly Entry[]): boolean {
  const named = namedIn(log)
  const seen = new Set<string>()
  return added.every((entry) => {
    const { hash } = entry
    const isNew = !log.everything.has(hash) && !seen.has(hash) && !named.has(hash)
    seen.add(hash)
    return isNew && isKnown(entry) && !ACTING.has(entry.kind) && !isFork(log, added, entry)
  })
}

const ACTING: ReadonlySet<Kind> = new Set(['pin', 'strike', 'aside', 'admit', 'send_back'])

function namedIn(log: Log): ReadonlySet<string> {
  const lists = [...ofKind(log, 'aside'), ...ofKind(log, 'admit'), ...ofKind(log, 'send_back')]
  return new Set([
    ...ofKind(log, 'strike').map(({ body }) => body.target),
    ...lists.flatMap(({ body }) => body.hashes),
  ])
}

function isFork(log: Log, added: readonly Entry[], { hash, job, device, seq }: Entry): boolean {
  const bearsIt = (other: Entry) =>
    other.seq === seq && other.device === device && other.job === job && other.hash !== hash
  return log.present.some(bearsIt) || added.some(bearsIt)
}

function grownLog(log: Log, added: readonly Entry[]): Log {
  const liveByKind = grownGroups(log.liveByKind, added)
  const everything = grownMap(log.everything, named(added))
  return {
    ...log,
    everything,
    present: withMore(log.present, added),
    live: log.live.size === log.everything.size ? everything : grownMap(log.live, named(added)),
    liveByKind,
    unstruckByKind:
      log.unstruckByKind === log.liveByKind ? liveByKind : grownGroups(log.unstruckByKind, added),
  }
}

function named(added: readonly Entry[]): [string, Entry][] {
  return added.map((entry) => [entry.hash, entry])
}

/** Each of a few put in its place among many that are sorted by hash. */
function withMore<E extends Entry>(sorted: readonly E[], added: readonly E[]): E[] {
  const more = [...sorted]
  for (const entry of added)
    more.splice(
      placeIn(more, (one) => byText(one.hash, entry.hash)),
      0,
      entry,
    )
  return more
}

/** Before how many of a sorted list stand those that `order` finds lower. */
function placeIn<Item>(sorted: readonly Item[], order: (one: Item) => number): number {
  let [from, to] = [0, sorted.length]
  while (from < to) {
    const middle = (from + to) >> 1
    if (order(sorted[middle] as Item) < 0) from = middle + 1
    else to = middle
  }
  return from
}

function grownGroups(groups: Log['liveByKind'], added: readonly Entry[]): Log['liveByKind'] {
  const more = new Map(groups)
  for (const [kind, own] of grouped(added, (entry) => entry.kind)) {
    more.set(kind, withMore(groups.get(kind) ?? [], own))
  }
  return more
}

/** Only registers that got an entry are read anew. */
function grownRegisters(
  { values, registers, pinned }: Ground,
  log: Log,
  added: readonly Entry[],
): Pick<Ground, 'values' | 'registers'> {
  const grown = { values: new Map(values), registers: new Map(registers) }
  const ordered = [...inOrder(registers)]
  for (const [name, own] of byRegister(added)) {
    const value = valuesOf(withMore<RegisterEntry>(values.get(name)?.entries ?? [], own), log)
    const register = registerOf(value, log.sentBack, pinned)
    grown.values.set(name, value)
    grown.registers.set(name, register)
    putInOrder(ordered, register, registers.has(name))
  }
  IN_ORDER.set(grown.registers, ordered)
  return grown
}

function putInOrder(ordered: Register[], register: Register, wasThere: boolean): void {
  const at = placeIn(ordered, (one) => byTexts(one.parts, register.parts))
  ordered.splice(at, wasThere ? 1 : 0, register)
}
