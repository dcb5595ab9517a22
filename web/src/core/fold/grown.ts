/**
 * The fold of a card to which a few entries came: the same state as `fold` gives, from less work.
 *
 * What the new entries leave as it was is taken over from the state before. Where one of them may change how an
 * earlier entry counts, everything is folded anew.
 */
import { type Entry, isKnown, type Kind } from '../entries.ts'
import type { CardState } from '../state.ts'
import type { Ground } from './ground.ts'
import { fold, foldedFrom, type Methods, stateOn } from './index.ts'
import { type Log, ofKind, sortedByHash } from './log.ts'
import { grouped } from './order.ts'
import { readPhotos } from './photos.ts'
import { byRegister, type RegisterEntry, registerOf, valuesOf } from './registers.ts'
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
  const ground = added.length > FEW ? undefined : grownGround(folded.ground, methods, added)
  return ground === undefined ? fold(methods, entries) : stateOn({ methods, entries, ground })
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
  const everything = withMore(log.everything, added)
  return {
    ...log,
    everything,
    present: sortedByHash([...log.present, ...added]),
    live: log.live.size === log.everything.size ? everything : withMore(log.live, added),
    liveByKind,
    unstruckByKind:
      log.unstruckByKind === log.liveByKind ? liveByKind : grownGroups(log.unstruckByKind, added),
  }
}

function withMore(entries: ReadonlyMap<string, Entry>, added: readonly Entry[]): Map<string, Entry> {
  const more = new Map(entries)
  for (const entry of added) more.set(entry.hash, entry)
  return more
}

function grownGroups(groups: Log['liveByKind'], added: readonly Entry[]): Log['liveByKind'] {
  const more = new Map(groups)
  for (const [kind, own] of grouped(added, (entry) => entry.kind)) {
    more.set(kind, sortedByHash([...(groups.get(kind) ?? []), ...own]))
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
  for (const [name, own] of byRegister(added)) {
    const entries = sortedByHash([...(values.get(name)?.entries ?? []), ...own]) as RegisterEntry[]
    const value = valuesOf(entries, log)
    grown.values.set(name, value)
    grown.registers.set(name, registerOf(value, log.sentBack, pinned))
  }
  return grown
}
