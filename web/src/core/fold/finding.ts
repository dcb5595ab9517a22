/** Findings: listed once each, in one order, with the accept that holds for each. */
import type { Finding, FindingCode } from '../state.ts'
import type { Ground } from './ground.ts'
import { unstruck } from './log.ts'
import { byText, byTexts, greatest, grouped, sorted } from './order.ts'

/** A shortcoming before anybody accepted it. */
export type Found = Omit<Finding, 'accepted'>

export function found(code: FindingCode, at: readonly string[], hashes: Iterable<string>): Found {
  return { code, at, hashes: sorted(hashes) }
}

/** An accept holds while code, at and hashes are all equal to its own; of several the greatest is named. */
export function listed(ground: Ground, founds: Iterable<Found>): Finding[] {
  const accepts = grouped(unstruck(ground.log, 'accept'), (entry) => nameOf(entry.body))
  const once = new Map(Array.from(founds, (each) => [nameOf(each), each]))
  return [...once]
    .map(([name, each]) => ({ ...each, accepted: greatest(accepts.get(name) ?? [])?.hash ?? '' }))
    .sort(inOrder)
}

function nameOf(each: { code: string; at: readonly string[]; hashes: readonly string[] }): string {
  return JSON.stringify([each.code, each.at, each.hashes])
}

function inOrder(one: Found, other: Found): number {
  return byText(one.code, other.code) || byTexts(one.at, other.at) || byTexts(one.hashes, other.hashes)
}
