// What was recorded in a run, newest first, on the run's own clock.
import type { JSX } from 'preact'
import { isHeatOn, isRunReading } from '../../core/entries.ts'
import type { Card } from '../../core/views/card.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { describe } from '../words/describe.ts'
import { runWords } from '../words/en_run.ts'
import { countdown } from '../words/format.ts'
import { personName } from '../words/names.ts'

type Line = { hash: string; run_ms: number; typed: boolean; doubt: boolean; words: string; who: string }

function linesOf(card: Card, view: RunView): readonly Line[] {
  return [view.run.run, ...view.run.acts, ...view.run.readings]
    .flatMap((hash) => lineOf(card, hash) ?? [])
    .sort((a, b) => b.run_ms - a.run_ms)
}

function lineOf(card: Card, hash: string): Line | undefined {
  const entry = card.entries.get(hash)?.entry
  if (entry === undefined) return undefined
  const base = { hash, words: describe(card, entry), who: personName(card, entry.by) }
  if (entry.kind === 'heat') {
    if (isHeatOn(entry.body)) return { ...base, run_ms: 0, typed: false, doubt: false }
    return { ...base, run_ms: entry.body.run_ms, typed: entry.body.typed_time, doubt: entry.body.run_doubt }
  }
  if (entry.kind !== 'reading' || !isRunReading(entry.body)) return undefined
  const [run_ms = 0] = entry.body.points.at(-1) ?? []
  return { ...base, run_ms, typed: entry.body.typed_time, doubt: entry.body.run_doubt }
}

export function RunHistory({ card, view }: { card: Card; view: RunView }): JSX.Element {
  return (
    <section>
      <h2 class="label-head">{runWords.history}</h2>
      <ol class="lines run-lines">
        {linesOf(card, view).map((line) => (
          <li key={line.hash}>
            <span class="num">{countdown(line.run_ms)}</span>
            <span>
              {line.words} · <span class="soft made-by">{line.who}</span>
              {line.typed && <small>{runWords.typedTime}</small>}
              {line.doubt && <small>{runWords.doubtShort}</small>}
            </span>
          </li>
        ))}
      </ol>
    </section>
  )
}
