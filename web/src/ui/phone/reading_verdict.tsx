// The verdict of what is typed, in words: shown at once, spoken when the typing rests.
import type { JSX } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import type { ReadingAsk } from '../../core/method.ts'
import type { Judged } from '../../core/views/reading_view.ts'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { quantity, scaled } from '../words/format.ts'
import { verdictState, verdictWords } from '../words/verdict.ts'

type VerdictProps = { ask: ReadingAsk; typed: string; judged: Judged | undefined; asked: boolean }

export function Verdict({ ask, typed, judged, asked }: VerdictProps): JSX.Element {
  const line = verdictLine(ask, typed, judged)
  const spoken = useSettled(line)
  const state = judged && verdictState(judged.verdict)
  return (
    <div class="verdict">
      {state ? <StateWord state={state} word={line} /> : <p>{line}</p>}
      {asked && ask.plausible && (
        <p class="in-hot" role="alert">
          {askWords.reading.implausible(
            quantity(ask.plausible[0], ask.decimals, ask.unit),
            quantity(ask.plausible[1], ask.decimals, ask.unit),
          )}
        </p>
      )}
      <p class="unseen" role="status">
        {spoken}
      </p>
    </div>
  )
}

/** Against an earlier reading the words are about the difference. */
export function verdictLine(ask: ReadingAsk, typed: string, judged: Judged | undefined): string {
  if (judged === undefined) {
    return typed === '' || typed === '-' ? promptOf(ask) : askWords.reading.decimals(ask.decimals)
  }
  if (judged.earlier === undefined) return verdictWords(judged.verdict, ask.decimals)
  if (judged.amount === undefined) return askWords.reading.notCompared
  return askWords.reading.differs(verdictWords(judged.verdict, ask.decimals))
}

/** The limits stand in the words: on a low screen the scale is under the keys. */
function promptOf({ min, max, decimals, unit, against }: ReadingAsk): string {
  const limits = [
    ...(min === undefined ? [] : [w.card.limits.min(scaled(min, decimals))]),
    ...(max === undefined ? [] : [w.card.limits.max(quantity(max, decimals, unit))]),
  ].join(', ')
  if (limits === '') return askWords.reading.type
  return against === undefined ? askWords.reading.typeWithin(limits) : askWords.reading.typeDiffering(limits)
}

/** Spoken 600 ms after the last digit, not with each. */
function useSettled(line: string): string {
  const [settled, setSettled] = useState('')
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined)
  useEffect(() => {
    timer.current = setTimeout(() => setSettled(line), 600)
    return () => clearTimeout(timer.current)
  }, [line])
  return settled
}
