/** Lots: what stands at an ask, what is wrong with one, and which lots of a material this job has already. */
import type { Entry } from '../entries.ts'
import type { LotAsk } from '../method.ts'
import { type Card, knownOf } from './card.ts'

/** What the phone sees at once: the fold judges expiry by the time of the entry, as this does. */
export type LotFaults = { readonly wrong: boolean; readonly expired: boolean }

export function faultsOf(
  ask: LotAsk,
  printed: { readonly material: string; readonly expires_ms: number },
  now_ms: number,
): LotFaults {
  const { material, expires_ms } = printed
  return { wrong: material !== ask.of, expired: expires_ms !== 0 && expires_ms < now_ms }
}

/** Lots of this material that were recorded in this job and that nothing is wrong with: each once, the newest first. */
export function lotsHere(card: Card, material: string): readonly Entry<'lot'>[] {
  const found = card.state.lots.flatMap(({ answers, marked }) =>
    answers.filter((hash) => !marked.includes(hash)),
  )
  const entries = found.flatMap((hash) => {
    const entry = knownOf(card, hash)?.entry
    return entry?.kind === 'lot' && entry.body.material === material ? [entry as Entry<'lot'>] : []
  })
  const newest = entries.sort((a, b) => b.at_ms - a.at_ms)
  return newest.filter((one, i) => newest.findIndex((other) => other.body.lot === one.body.lot) === i)
}
