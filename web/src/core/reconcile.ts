/** The tally reconciliation of a step's groups, ready to be recorded as a `result`. */
import type { Entry, ResultBody } from './entries.ts'
import { inputsAt, openLosts, type Spot, spotsOf, type TallyEntry } from './fold/tally.ts'
import type { ComputeAsk, MethodDoc } from './method.ts'
import type { CardState } from './state.ts'
import { type Rivet, TALLY_MODEL, tallyReconciliation, tallyValues } from './tally.ts'

/** What the computation gives; the screen adds the step and what it replaces. */
export type Reconciled = Pick<ResultBody, 'computation' | 'model' | 'inputs' | 'values' | 'verdict'>

/** Computed over the entries that count: those not set aside, not struck and of a form known here. */
export function reconcileTally(
  method: MethodDoc,
  ask: ComputeAsk,
  entries: readonly Entry[],
  state: CardState,
): Reconciled {
  const spots = spotsOf(countingTally(entries, state))
  const groups = ask.groups.flatMap((id) => method.groups.find((group) => group.id === id) ?? [])
  const positions = [...new Set(groups.flatMap((group) => group.positions))]
  const rivets = positions.flatMap((position) => rivetsOf(spots.get(position)))
  const reconciliation = tallyReconciliation(rivets)
  return {
    computation: 'tally_reconciliation',
    model: TALLY_MODEL,
    inputs: inputsAt(spots, positions),
    values: tallyValues(reconciliation),
    verdict: reconciliation.verdict,
  }
}

function countingTally(entries: readonly Entry[], state: CardState): TallyEntry[] {
  const without = new Set([...state.aside, ...state.unknown, ...state.struck.map((strike) => strike.target)])
  const once = new Map(entries.map((entry) => [entry.hash, entry]))
  return [...once.values()].filter(
    (entry): entry is TallyEntry => entry.kind === 'tally' && !without.has(entry.hash),
  )
}

function rivetsOf(spot: Spot | undefined): Rivet[] {
  if (spot === undefined) return []
  const losts = new Set(openLosts(spot).map((mark) => mark.hash))
  return spot.rivets.map(({ generation, deciding }) => ({
    position: spot.position,
    generation,
    state: deciding?.body.state ?? '',
    lost: spot.entries.flatMap(({ hash, body }) =>
      losts.has(hash) && body.generation === generation && 'mark' in body && body.piece !== ''
        ? [body.piece]
        : [],
    ),
  }))
}
