/** Forks: entries of one job and device that bear the same number. */
import type { Entry } from '../entries.ts'
import { grouped } from './order.ts'

export type Forks = {
  /** Those of one number each, in the order of the entries. */
  readonly found: readonly (readonly Entry[])[]
  /** The highest number of each chain. */
  readonly newest: ReadonlyMap<string, number>
}

export function forksIn(entries: readonly Entry[]): Forks {
  const chains = grouped(entries, (entry) => entry.device)
  return { found: [...chains.values()].flatMap(forksOf), newest: newestOf(new Map(), entries) }
}

/** With more entries, all of them among `entries`: one that is newer than its chain forks nothing. */
export function grownForks(forks: Forks, entries: readonly Entry[], added: readonly Entry[]): Forks {
  const newest = new Map(forks.newest)
  for (const entry of added) {
    if (entry.seq <= (newest.get(chainOf(entry)) ?? 0)) return forksIn(entries)
    newest.set(chainOf(entry), entry.seq)
  }
  return { found: forks.found, newest }
}

function forksOf(own: readonly Entry[]): (readonly Entry[])[] {
  if (new Set(own.map(({ seq }) => seq)).size === own.length) return []
  const byNumber = grouped(own, (entry) => `${entry.job}\n${entry.seq}`)
  return [...byNumber.values()].filter(({ length }) => length > 1)
}

function newestOf(newest: Map<string, number>, entries: readonly Entry[]): Map<string, number> {
  for (const entry of entries) {
    const chain = chainOf(entry)
    if (entry.seq > (newest.get(chain) ?? 0)) newest.set(chain, entry.seq)
  }
  return newest
}

function chainOf({ job, device }: Entry): string {
  return `${job}\n${device}`
}
