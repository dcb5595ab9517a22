/** Forks: entries of one job and device that bear the same number. */
import type { Entry } from '../entries.ts'
import { grouped } from './order.ts'

/** Those of one number, in the order of the entries. */
export type Fork = readonly Entry[]

export function forksIn(entries: readonly Entry[]): Fork[] {
  const chains = grouped(entries, (entry) => entry.device)
  return [...chains.values()].flatMap(forksOf)
}

function forksOf(own: readonly Entry[]): Fork[] {
  if (new Set(own.map(({ seq }) => seq)).size === own.length) return []
  const byNumber = grouped(own, (entry) => `${entry.job}\n${entry.seq}`)
  return [...byNumber.values()].filter(({ length }) => length > 1)
}
