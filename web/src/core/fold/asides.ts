/**
 * Which entries are set aside: named by an `aside` and by no unstruck `admit`, where an aside, admit or strike that
 * is itself set aside does not act. A hash can only be named after it exists, so working from the unnamed backwards
 * ends; no recursion, since a log may be as long as its writers like.
 */
import { type Entry, isKind, isKnown } from '../entries.ts'
import { append, sorted } from './order.ts'
import { strikeWorks } from './strikes.ts'

/** Entries that name others by hash, by the hash that they name. */
type Namers = ReadonlyMap<string, readonly Entry[]>

/** The test of being set aside, over all entries of the set. */
export function asideTest(entries: readonly Entry[]): (entry: Entry) => boolean {
  const control = entries.filter((entry) => isKnown(entry) && namedBy(entry) !== undefined)
  const namers = namersOf(control)
  const decided = decide(control, namers)
  return (entry) => decided.get(entry.hash) ?? isAside(entry.hash, namers, decided)
}

function namedBy(entry: Entry): readonly string[] | undefined {
  if (isKind(entry, 'strike')) return [entry.body.target]
  return isKind(entry, 'aside') || isKind(entry, 'admit') ? sorted(entry.body.hashes) : undefined
}

function namersOf(control: readonly Entry[]): Namers {
  const namers = new Map<string, Entry[]>()
  for (const entry of control) {
    for (const hash of namedBy(entry) ?? []) append(namers, hash, entry)
  }
  return namers
}

/** Judges asides, admits and strikes, each after all that name it. */
function decide(control: readonly Entry[], namers: Namers): ReadonlyMap<string, boolean> {
  const waiting = new Map(control.map((entry) => [entry.hash, namers.get(entry.hash)?.length ?? 0]))
  const ready = control.filter((entry) => waiting.get(entry.hash) === 0)
  const byHash = new Map(control.map((entry) => [entry.hash, entry]))
  const decided = new Map<string, boolean>()
  for (let entry = ready.pop(); entry !== undefined; entry = ready.pop()) {
    decided.set(entry.hash, isAside(entry.hash, namers, decided))
    for (const hash of namedBy(entry) ?? []) {
      const left = (waiting.get(hash) ?? 0) - 1
      waiting.set(hash, left)
      const named = byHash.get(hash)
      if (left === 0 && named !== undefined) ready.push(named)
    }
  }
  return decided
}

function isAside(hash: string, namers: Namers, decided: ReadonlyMap<string, boolean>): boolean {
  if (!namers.has(hash)) return false
  const acting = (name: string) =>
    (namers.get(name) ?? []).filter((entry) => decided.get(entry.hash) !== true)
  const isUnstruck = (admit: Entry) =>
    !acting(admit.hash).some((entry) => isKind(entry, 'strike') && strikeWorks(entry, admit))
  const naming = acting(hash)
  return (
    naming.some((entry) => entry.kind === 'aside') &&
    !naming.some((entry) => entry.kind === 'admit' && isUnstruck(entry))
  )
}
