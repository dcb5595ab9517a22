/** An ask for a computation: its answer from the records as they stand, or what it waits for. */
import { answer } from '../computations/book.ts'
import { type Answer, asks, Refusal } from '../computations/shapes.ts'
import type { Draft, Entry, ResultValue } from '../entries.ts'
import type { ComputeAsk } from '../method.ts'
import { type Card, type Known, knownOf, registerOf, type StepPlace } from './card.ts'
import { type Asking, type Gathered, gather, type InputView } from './compute_inputs.ts'
import type { Wait } from './compute_sources.ts'
import { refOf } from './drafts.ts'

export type ComputeView = {
  /** Undefined while something is waited for, and where it cannot be worked out. */
  readonly answer: Answer | undefined
  readonly refusal: { readonly field: string; readonly code: string } | undefined
  readonly waits: readonly Wait[]
  readonly inputs: readonly InputView[]
  readonly hashes: readonly string[]
  readonly gathered: Gathered
  /** The result that was recorded, and whether the records have moved on since. */
  readonly recorded: Known | undefined
  readonly stale: boolean
  /** Another revision of a supplier's sheet is in use than the one it was recorded with. */
  readonly otherSheet: boolean
}

export function computeViewOf(card: Card, place: StepPlace, ask: ComputeAsk, asking?: Asking): ComputeView {
  const gathered = gather(card, place, ask, asking)
  const { waits, inputs, hashes } = gathered
  const recorded = knownOf(card, registerOf(card, place, 'result', ask.id)?.shown ?? '')
  const result = recorded?.entry.kind === 'result' ? recorded.entry : undefined
  const otherSheet =
    result !== undefined &&
    !isYetToBeRead(card, ask) &&
    (result.body.tables ?? []).join() !== gathered.tables.join()
  return {
    ...(waits.length > 0 ? { answer: undefined, refusal: undefined } : answered(gathered)),
    waits,
    inputs,
    hashes,
    gathered,
    recorded,
    stale: result !== undefined && (otherSheet || isStale(result, place, ask, hashes)),
    otherSheet,
  }
}

function answered({ question }: Gathered): Pick<ComputeView, 'answer' | 'refusal'> {
  try {
    return { answer: answer(question), refusal: undefined }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return { answer: undefined, refusal: { field: error.field, code: error.code } }
  }
}

/** Pinned plans are read from the store a moment after the card. */
function isYetToBeRead(card: Card, { computation }: ComputeAsk): boolean {
  return computation === 'heat_plan' && card.plans === undefined
}

type Result = Extract<Entry, { kind: 'result' }>

function isStale(result: Result, place: StepPlace, ask: ComputeAsk, hashes: readonly string[]): boolean {
  return place.state.open.includes(ask.id) || [...result.body.inputs].sort().join() !== hashes.join()
}

/** Outside a limit, or a border case: a person decides, with a reason. */
export function wantsReason({ answer: found }: ComputeView): boolean {
  return found !== undefined && (found.verdict === 'outside' || asks(found))
}

/** `chosen` are figures that a person decided where the answer asks. */
export function resultDraft(
  card: Card,
  place: StepPlace,
  ask: ComputeAsk,
  view: ComputeView,
  chosen: readonly ResultValue[] = [],
): Draft {
  if (view.answer === undefined) throw new Error(`${ask.id}: no answer to record`)
  const over = [...(registerOf(card, place, 'result', ask.id)?.standing ?? [])].sort()
  const { model, verdict } = view.answer
  const values = [...view.answer.values, ...chosen]
  const about = { ask: ask.id, point: '', computation: ask.computation, model }
  const { tables } = view.gathered
  const used = tables.length === 0 ? {} : { tables: [...tables] }
  const body = { ...refOf(place), ...about, inputs: view.hashes, values, verdict, over, ...used }
  return { kind: 'result', body }
}
