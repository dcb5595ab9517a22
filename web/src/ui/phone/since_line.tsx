// Time since an earlier answer: the phone counts it and proposes it; it is typed only when it is entered late.
import type { JSX } from 'preact'
import type { ReadingAsk } from '../../core/method.ts'
import type { Card, Known } from '../../core/views/card.ts'
import { elapsedIn, type Since, sinceOf } from '../../core/views/reading_view.ts'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { capital, quantity, when } from '../words/format.ts'
import { usePhone } from './context.ts'
import { elapsedSince } from './run_clock_hook.ts'

export type Proposal = {
  readonly since: Since
  /** Counted up to now; undefined while nobody answered there, or where the unit is no time. */
  readonly counted: number | undefined
  /** What stands in the field before anything is typed; not where a value stands already. */
  readonly value: number | undefined
  readonly doubt: boolean
}

/** Read anew with each beat of the clock. */
export function useProposal(card: Card, ask: ReadingAsk, standing: Known | undefined): Proposal | undefined {
  const { services } = usePhone()
  const since = sinceOf(card, ask)
  if (since === undefined) return undefined
  if (since.known === undefined) return { since, counted: undefined, value: undefined, doubt: false }
  const { elapsed_ms, doubt } = elapsedSince(services, since.known)
  const counted = elapsedIn(ask, elapsed_ms)
  return { since, counted, value: standing === undefined ? counted : undefined, doubt: doubt !== 'none' }
}

type LineProps = { proposal: Proposal; ask: ReadingAsk; typed: boolean }

export function SinceLine({ proposal, ask, typed }: LineProps): JSX.Element {
  const { services } = usePhone()
  const { since, counted, value, doubt } = proposal
  const words = askWords.reading
  const step = since.place ? w.card.step(since.place.number).toLowerCase() : ''
  if (since.known === undefined) return <p class="in-hot">{words.sinceNothing(capital(since.ask), step)}</p>
  const from = when(since.known.entry.at_ms, services.device.clock.now().at_ms)
  const now = counted === undefined ? '' : quantity(counted, ask.decimals, ask.unit)
  return (
    <p class="label">
      {words.since(from, since.ask, step)}
      {(typed || value === undefined) && now !== '' && ` ${words.counts(now)}`}
      {doubt && ` ${words.doubt}`}
    </p>
  )
}
