/** What a hold point waits for: checks that are open, answers outside their limits, and who has to sign. */
import type { Entry } from '../entries.ts'
import type { AskView } from './answers.ts'
import { bodyOf, type Card, type Known, type StepPlace } from './card.ts'
import { isOutside } from './limits.ts'
import { judged } from './reading_view.ts'
import { type Signers, sawOf, signersOf } from './sign_view.ts'

export type HoldCheck = {
  readonly view: AskView
  /** `outside`: it is answered, and what was answered does not pass. */
  readonly is: 'open' | 'outside'
  readonly signers: Signers | undefined
}

export function holdChecks(
  card: Card,
  place: StepPlace,
  asks: readonly AskView[],
  me: string,
): readonly HoldCheck[] {
  return asks.flatMap((view) => {
    const outside = !view.open && isAnsweredOutside(card, view)
    if (!view.open && !outside) return []
    const { ask } = view
    const signers =
      ask.kind === 'countersign' ? signersOf(card, sawOf(card, place, ask.id), ask.of, me) : undefined
    return [{ view, is: view.open ? 'open' : 'outside', signers } as const]
  })
}

/** An answer that stands, but does not pass the hold: outside its limits, an option that stops, a failed sum. */
export function isAnsweredOutside(card: Card, view: AskView): boolean {
  return view.values.some((value) => value.known !== undefined && isOutsideValue(card, view, value.known))
}

export function isOutsideValue(card: Card, { ask }: AskView, { entry }: Known): boolean {
  switch (entry.kind) {
    case 'result':
      return entry.body.verdict === 'outside'
    case 'choice':
      return ask.kind === 'choice' && ask.options.some((one) => one.id === entry.body.option && one.stop)
    case 'reading':
      return (
        ask.kind === 'reading' &&
        'value' in entry.body &&
        isOutside(judged(card, ask, entry.body.point, entry.body.value).verdict)
      )
    default:
      return false
  }
}

/** The unstruck deviations that name this record: what was written when it was kept outside its limits. */
export function deviationsAbout(card: Card, hash: string): readonly Entry<'deviation'>[] {
  return card.state.deviations.flatMap((one) => {
    const about = bodyOf(card, one, 'deviation')?.about ?? []
    const entry = card.entries.get(one)?.entry
    return about.includes(hash) && entry?.kind === 'deviation' ? [entry as Entry<'deviation'>] : []
  })
}
