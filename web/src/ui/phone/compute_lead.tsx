// From a sum of pieces that is out to what mends it: the lost pieces on the map, or the count that is older than the find.
import type { JSX } from 'preact'
import type { Answer } from '../../core/computations/shapes.ts'
import type { Card } from '../../core/views/card.ts'
import type { ComputeView } from '../../core/views/compute_view.ts'
import { lostPieces } from '../../core/views/lost_pieces.ts'
import { computeWords } from '../words/en_compute.ts'
import { paths } from './router.ts'

type LeadProps = { card: Card; view: ComputeView; answer: Answer }

export function CountLead({ card, view, answer }: LeadProps): JSX.Element | null {
  if (lostPieces(card).length > 0) {
    return (
      <a class="key key-plain" href={paths.map(card.job)}>
        {computeWords.toMap}
      </a>
    )
  }
  if (answer.verdict !== 'outside') return null
  const counted = view.inputs
    .filter(({ name }) => COUNTS.includes(name))
    .flatMap(({ sources }) => sources)
    .at(-1)
  if (counted === undefined) return null
  const { place, ask } = counted
  return (
    <a class="key key-plain" href={paths.step(card.job, place.method.id, place.step.id)}>
      {computeWords.toCount(ask.name, place.number)}
    </a>
  )
}

/** What a person counted, beside what the map says. */
const COUNTS: readonly string[] = ['heads', 'mandrels', 'shanks']
