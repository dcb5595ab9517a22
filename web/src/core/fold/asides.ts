/**
 * Which entries are set aside: named by an `aside` and by no unstruck `admit`, where an aside, admit or strike that
 * is itself set aside does not act. Asking ends, since an entry can only name hashes that were made before it.
 */
import type { Entry } from '../entries.ts'
import { isKind, isKnown } from '../entries.ts'
import { append } from './order.ts'
import { type StrikeEntry, strikeWorks } from './strikes.ts'

/** The test of being set aside, over all entries of the set. */
export function asideTest(entries: readonly Entry[]): (entry: Entry) => boolean {
  const naming = namingOf(entries)
  const known = new Map<string, boolean>()
  const acts = (entry: Entry): boolean => !isAside(entry)
  const isUnstruck = (target: Entry): boolean =>
    !(naming.strike.get(target.hash) ?? []).some((strike) => acts(strike) && strikeWorks(strike, target))
  const judge = (entry: Entry): boolean =>
    (naming.aside.get(entry.hash) ?? []).some(acts) &&
    !(naming.admit.get(entry.hash) ?? []).some((admit) => acts(admit) && isUnstruck(admit))
  function isAside(entry: Entry): boolean {
    const verdict = known.get(entry.hash) ?? judge(entry)
    known.set(entry.hash, verdict)
    return verdict
  }
  return isAside
}

type Naming = {
  readonly aside: Map<string, Entry[]>
  readonly admit: Map<string, Entry[]>
  readonly strike: Map<string, StrikeEntry[]>
}

function namingOf(entries: readonly Entry[]): Naming {
  const naming: Naming = { aside: new Map(), admit: new Map(), strike: new Map() }
  for (const entry of entries.filter(isKnown)) {
    if (isKind(entry, 'aside')) for (const hash of entry.body.hashes) append(naming.aside, hash, entry)
    if (isKind(entry, 'admit')) for (const hash of entry.body.hashes) append(naming.admit, hash, entry)
    if (isKind(entry, 'strike')) append(naming.strike, entry.body.target, entry)
  }
  return naming
}
