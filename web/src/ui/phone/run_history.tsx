// What was recorded in a run, newest first, on the run's own clock.
import type { JSX } from 'preact'
import { isHeatOn, isRunReading } from '../../core/entries.ts'
import type { Card } from '../../core/views/card.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { describe } from '../words/describe.ts'
import { runWords } from '../words/en_run.ts'
import { countdown, scaled } from '../words/format.ts'
import { personName } from '../words/names.ts'

type Line = { hash: string; run_ms: number; typed: boolean; doubt: boolean; words: string; who: string }

function linesOf(card: Card, view: RunView): readonly Line[] {
  const acts = [view.run.run, ...view.run.acts].flatMap((hash) => actLine(card, hash) ?? [])
  return [...acts, ...readingLines(card, view)].sort((a, b) => b.run_ms - a.run_ms)
}

function actLine(card: Card, hash: string): Line | undefined {
  const entry = card.entries.get(hash)?.entry
  if (entry?.kind !== 'heat') return undefined
  const base = { hash, words: describe(card, entry), who: personName(card, entry.by) }
  if (isHeatOn(entry.body)) return { ...base, run_ms: 0, typed: false, doubt: false }
  const { run_ms, typed_time: typed, run_doubt: doubt } = entry.body
  return { ...base, run_ms, typed, doubt }
}

/** Readings of one moment by one person are one line: a 156, b 141. */
function readingLines(card: Card, view: RunView): readonly Line[] {
  const at = new Map<string, Line & { values: string[] }>()
  for (const hash of view.run.readings) {
    const entry = card.entries.get(hash)?.entry
    if (entry?.kind !== 'reading' || !isRunReading(entry.body)) continue
    const { sensor, points, decimals, typed_time: typed, run_doubt: doubt } = entry.body
    for (const [run_ms, value] of points) {
      const who = personName(card, entry.by)
      const key = `${run_ms}/${entry.by}/${typed}`
      const line = at.get(key) ?? {
        hash: `${hash}/${run_ms}`,
        run_ms,
        typed,
        doubt,
        words: '',
        who,
        values: [],
      }
      line.values.push(`${sensor.replace('_', ' ')} ${scaled(value, decimals)}`)
      at.set(key, line)
    }
  }
  return [...at.values()].map((line) => ({ ...line, words: [...line.values].sort().join(', ') }))
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
