// A step's own tick: what stops a plain one, and how it is recorded.
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { isReached } from '../../core/views/reached.ts'
import { tick } from '../../core/views/tick_draft.ts'
import { usePhone } from './context.ts'
import { STRIP_MS } from './model.ts'

/** The first ask that stops a plain 'Done': not a photo, which can follow, and no tally that lacks lost pieces alone. */
export function firstOpen(asks: readonly AskView[]): AskView | undefined {
  return asks.find((view) => view.open && view.ask.kind !== 'photo' && !isCounted(view))
}

/** Every rivet is where the step wants it: what keeps the tally open is lost, and is not found by counting again. */
function isCounted({ ask, positions }: AskView): boolean {
  return ask.kind === 'tally' && positions.every((at) => isReached(at, ask.to))
}

/**
 * Whether it was right when it was made and is not any more: a value that was sent back, a sum over older records, a
 * signature that saw others.
 */
export function isAnew({ ask, open, values, signs }: AskView): boolean {
  if (!open) return false
  if (ask.kind === 'countersign') return signs.some(({ state }) => VOID.includes(state.why))
  return values.some(
    ({ known, sentBack }) => sentBack !== '' || (ask.kind === 'compute' && known !== undefined),
  )
}

const VOID: readonly string[] = ['superseded', 'missing']

/** A hold point whose checks are still being made is an act like any other: it holds once only a signature is left. */
export function hasOwnChecks(asks: readonly AskView[]): boolean {
  return asks.some((view) => view.open && view.ask.kind !== 'countersign')
}

/** Records the step's own tick and leaves the way back open for 20 s. */
export function useDone(card: Card, place: StepPlace): () => Promise<void> {
  const { record, justDone, services } = usePhone()
  return async () => {
    await record(card.job, [tick(card, place, '')], undefined, ([entry]) => {
      if (entry === undefined) return
      const until_ms = services.device.clock.now().mono_ms + STRIP_MS
      justDone.value = { job: card.job, number: place.number, hash: entry.hash, until_ms }
    })
  }
}
