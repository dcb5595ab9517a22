/** A card with its hot runs looked at; what reads a run is fetched when a card first has one. */
import type { Card } from './card.ts'
import { isHot } from './statuses.ts'

/** Without that part, on a phone that never fetched it, the card still says that its pads are hot. */
export async function withHotRuns(card: Card): Promise<Card> {
  if (!card.state.runs.some(isHot)) return card
  try {
    const { hotRunsOf } = await import('./heat_view.ts')
    return { ...card, hotRuns: hotRunsOf(card) }
  } catch {
    return card // looked for again with the next change of the card
  }
}
