// The verdict of what is typed, in words: shown at once, spoken when the typing rests.
import type { JSX } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import type { ReadingAsk } from '../../core/method.ts'
import { verdictOf } from '../../core/views/answers.ts'
import { StateWord } from '../parts/state_word.tsx'
import { askWords } from '../words/en_asks.ts'
import { quantity } from '../words/format.ts'
import { verdictState, verdictWords } from '../words/verdict.ts'

type VerdictProps = { ask: ReadingAsk; typed: string; amount: number | undefined; asked: boolean }

export function Verdict({ ask, typed, amount, asked }: VerdictProps): JSX.Element {
  const spoken = useSettled(verdictLine(ask, typed, amount))
  const verdict = amount === undefined ? undefined : verdictOf(ask, amount)
  const state = verdict && verdictState(verdict)
  const line = verdictLine(ask, typed, amount)
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

function verdictLine(ask: ReadingAsk, typed: string, amount: number | undefined): string {
  if (amount !== undefined) return verdictWords(verdictOf(ask, amount), ask.decimals)
  return typed === '' || typed === '-' ? askWords.reading.type : askWords.reading.decimals(ask.decimals)
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
