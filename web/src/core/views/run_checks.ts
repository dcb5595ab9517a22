/** What must be true before switch-on: the checks of the steps that lead to the run, made ones with their time. */
import { type AskView, asksOf, type Value } from './answers.ts'
import { type Card, knownOf, type StepPlace } from './card.ts'
import { isOutside, verdictOf } from './limits.ts'

export type RunCheck = {
  readonly place: StepPlace
  readonly view: AskView
  readonly made_ms: number | undefined
  /** Not made: its step does not apply, or a deviation passed its hold. */
  readonly passed: boolean
  /** Made, but outside its limits. */
  readonly outside: boolean
}

/** Checks, not paperwork: what is computed, photographed or taken from a shelf shows on its own step. */
const CHECKED: readonly AskView['ask']['kind'][] = ['tick', 'reading', 'text', 'choice', 'countersign']

/** The steps of the same stage before it, as far back as the last one that ran heat. */
export function stepsBefore(card: Card, place: StepPlace): readonly StepPlace[] {
  const before = card.steps.filter(
    (one) =>
      one.method.id === place.method.id &&
      one.stage.number === place.stage.number &&
      one.number < place.number,
  )
  const heats = before.map((one) => one.step.asks.some((ask) => ask.kind === 'heat_run'))
  return before.slice(heats.lastIndexOf(true) + 1)
}

/** Every check of those steps, and what this step itself asks for besides the run. */
export function checksOf(card: Card, place: StepPlace): readonly RunCheck[] {
  return [...stepsBefore(card, place), place].flatMap((one) =>
    asksOf(card, one)
      .filter((view) => CHECKED.includes(view.ask.kind))
      .filter((view) => one !== place || isBefore(place, view))
      .map((view) => checkOf(card, one, view)),
  )
}

/** Of its own step only what is asked before the run. */
function isBefore({ step }: StepPlace, { ask }: AskView): boolean {
  const run = step.asks.findIndex((one) => one.kind === 'heat_run')
  return step.asks.findIndex((one) => one.id === ask.id) < run
}

function checkOf(card: Card, place: StepPlace, view: AskView): RunCheck {
  const times = [
    ...view.values.flatMap(({ known }) => known?.entry.at_ms ?? []),
    ...view.signs.filter(({ state }) => state.counts).map(({ known }) => known.entry.at_ms),
  ]
  const goesOn = place.state.done === 'not_applicable' || place.state.hold === 'deviation'
  const tick_ms = goesOn ? knownOf(card, place.state.tick)?.entry.at_ms : undefined
  const made_ms = view.open ? tick_ms : Math.max(0, ...times)
  return {
    place,
    view,
    made_ms,
    passed: view.open && goesOn,
    outside: view.values.some((value) => isBeyond(view, value)),
  }
}

function isBeyond({ ask }: AskView, { known }: Value): boolean {
  if (ask.kind !== 'reading' || known?.entry.kind !== 'reading' || !('value' in known.entry.body))
    return false
  return isOutside(verdictOf(ask, known.entry.body.value))
}

export function openChecks(checks: readonly RunCheck[]): readonly RunCheck[] {
  return checks.filter(({ view, passed }) => view.open && !passed)
}
