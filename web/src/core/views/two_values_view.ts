/** Where two people answered the same without seeing each other, and said different things. */
import type { Entry } from '../entries.ts'
import { askOf, type Card, type Known, knownOf, placeOf, type StepPlace } from './card.ts'

export type Contradiction = {
  readonly place: StepPlace
  /** Empty: the step's own tick. */
  readonly ask: string
  readonly name: string
  readonly point: string
  readonly standing: readonly Known[]
}

export function contradictionsOf(card: Card): readonly Contradiction[] {
  return card.state.registers.flatMap((register) => {
    if (register.standing.length < 2) return []
    const place = placeOf(card, register.method, register.step)
    const standing = register.standing
      .filter((hash) => !register.sent_back.includes(hash))
      .flatMap((hash) => knownOf(card, hash) ?? [])
      .sort((a, b) => a.entry.at_ms - b.entry.at_ms)
    if (place === undefined || !differ(standing)) return []
    const { ask, point } = register
    return [{ place, ask, point, name: askOf(place, ask)?.name ?? place.step.title, standing }]
  })
}

/** Two that say the same are two records, but no contradiction. */
export function differ(standing: readonly Known[]): boolean {
  return new Set(standing.map(({ entry }) => saidBy(entry))).size > 1
}

function saidBy({ kind, body }: Entry): string {
  const { over: _over, ...said } = body as { over?: unknown }
  return JSON.stringify([kind, said])
}
