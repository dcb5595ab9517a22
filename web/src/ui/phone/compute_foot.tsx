// The key that records a result: with a reason where one is wanted, quiet once it stands as it was recorded.
import type { JSX } from 'preact'
import type { ResultValue } from '../../core/entries.ts'
import { type Card, knownOf, type StepPlace } from '../../core/views/card.ts'
import { type ComputeView, wantsReason } from '../../core/views/compute_view.ts'
import { Key } from '../parts/key.tsx'
import { RecordKey, type useWords } from '../parts/words_form.tsx'
import { computeWords } from '../words/en_compute.ts'
import { firstName, when } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { paths } from './router.ts'

type FootProps = {
  card: Card
  place: StepPlace
  view: ComputeView
  /** Figures that a person decided, as they would be recorded now. */
  chosen: readonly ResultValue[]
  input: ReturnType<typeof useWords>
  onWrite: (reason?: string) => Promise<void>
}

export function Foot({ card, place, view, chosen, input, onWrite }: FootProps): JSX.Element | null {
  const { recorded } = view
  const isSame =
    recorded !== undefined && !view.stale && isSameAnswer(card, recorded.entry.hash, view, chosen)
  if (view.answer === undefined || isSame) {
    return (
      <>
        {recorded && <p class="label soft">{recordedWords(card, recorded)}</p>}
        <a class="key key-plain" href={paths.step(card.job, place.method.id, place.step.id)}>
          {computeWords.back}
        </a>
      </>
    )
  }
  const word = recorded === undefined ? computeWords.record : computeWords.again
  if (!wantsReason(view)) {
    const settled = recorded !== undefined && !view.stale
    return (
      <Key tone={settled ? 'plain' : 'main'} onPress={() => void onWrite()}>
        {word}
      </Key>
    )
  }
  return (
    <RecordKey input={input} onWords={(words) => void onWrite(words)}>
      {word}
    </RecordKey>
  )
}

function isSameAnswer(
  card: Card,
  hash: string,
  { answer }: ComputeView,
  chosen: readonly ResultValue[],
): boolean {
  const entry = knownOf(card, hash)?.entry
  if (entry?.kind !== 'result' || answer === undefined) return false
  return (
    entry.body.verdict === answer.verdict &&
    JSON.stringify(entry.body.values) === JSON.stringify([...answer.values, ...chosen])
  )
}

function recordedWords(card: Card, { entry }: NonNullable<ComputeView['recorded']>): string {
  return computeWords.recorded(when(entry.at_ms, Date.now()), firstName(personName(card, entry.by)))
}
