/** The tally reconciliation of a step: worked out from the rivets as they stand now. */
import type { Draft, Entry, Piece } from '../entries.ts'
import { inputsAt, spotsOf } from '../fold/tally.ts'
import type { ComputeAsk } from '../method.ts'
import { type Reconciliation, type Rivet, TALLY_MODEL, tallyReconciliation, tallyValues } from '../tally.ts'
import { positionsOf } from './answers.ts'
import { type Card, registerOf, type StepPlace } from './card.ts'
import { refOf } from './drafts.ts'

type TallyEntry = Extract<Entry, { kind: 'tally' }>

export type ComputeView = {
  readonly reconciliation: Reconciliation
  readonly inputs: readonly string[]
  /** A result stands, but the tally has moved on since. */
  readonly stale: boolean
}

export function computeViewOf(card: Card, place: StepPlace, ask: ComputeAsk): ComputeView {
  const positions = positionsOf(card, ask.groups ?? []).map((one) => one.position)
  const spots = spotsOf(liveTally(card))
  const inputs = inputsAt(spots, positions)
  const rivets = positions.flatMap((position) => {
    const spot = spots.get(position)
    const lost = (spot?.marks ?? []).flatMap((one) =>
      one.mark === 'lost' && one.open && one.piece !== '' ? [one] : [],
    )
    return (spot?.rivets ?? []).map(
      ({ generation, deciding }): Rivet => ({
        position,
        generation,
        state: deciding?.body.state ?? '',
        lost: lost
          .filter((one) => generationOf(card, one.hash) === generation)
          .map((one) => one.piece as Piece),
      }),
    )
  })
  return { reconciliation: tallyReconciliation(rivets), inputs, stale: isStale(card, place, ask, inputs) }
}

function liveTally(card: Card): readonly TallyEntry[] {
  const dead = new Set([...card.state.aside, ...card.state.struck.map((strike) => strike.target)])
  return [...card.entries.values()].flatMap(({ entry }) =>
    entry.kind === 'tally' && !dead.has(entry.hash) ? [entry] : [],
  )
}

function generationOf(card: Card, hash: string): number {
  const entry = card.entries.get(hash)?.entry
  return entry?.kind === 'tally' ? entry.body.generation : 0
}

function isStale(card: Card, place: StepPlace, ask: ComputeAsk, inputs: readonly string[]): boolean {
  const shown = card.entries.get(registerOf(card, place, 'result', ask.id)?.shown ?? '')?.entry
  return shown?.kind === 'result' && shown.body.inputs.join() !== inputs.join()
}

export function resultDraft(card: Card, place: StepPlace, ask: ComputeAsk, view: ComputeView): Draft {
  const over = [...(registerOf(card, place, 'result', ask.id)?.standing ?? [])].sort()
  const { reconciliation, inputs } = view
  return {
    kind: 'result',
    body: {
      ...refOf(place),
      ask: ask.id,
      point: '',
      computation: ask.computation,
      model: TALLY_MODEL,
      inputs,
      values: tallyValues(reconciliation),
      verdict: reconciliation.verdict,
      over,
    },
  }
}
