// A run that is over against its limits: a line each with figure, limit and how it stands.
import type { JSX } from 'preact'
import type { ResultValue } from '../../core/entries.ts'
import { heatVerdict, type VerdictLine } from '../../core/live/verdict.ts'
import type { Card } from '../../core/views/card.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { runInputOf } from '../../core/views/run_rows.ts'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { runVerdictWords as words } from '../words/en_verdict.ts'
import { quantity } from '../words/format.ts'

const STATE = {
  conforming: 'done',
  deviation: 'deviation',
  not_conforming: 'finding',
  not_recorded: 'deviation',
} as const

export function RunVerdict({ card, view }: { card: Card; view: RunView }): JSX.Element | null {
  const run = runInputOf(card, view.run)
  if (run === undefined) return null
  const earlier = card.state.runs
    .filter((one) => one.run !== view.run.run && isEarlier(card, one.run, view))
    .flatMap((one) => runInputOf(card, one) ?? [])
  const { lines, overall } = heatVerdict(run, view.ask.settings, earlier)
  return (
    <section class="run-verdict">
      <h2 class="label-head">{words.title}</h2>
      <p class="verdict-word">{words.overall[overall]}</p>
      {run.aborted && <p>{words.aborted}</p>}
      <ul class="lines">
        {lines.map((line) => (
          <li key={line.code}>
            <Line line={line} />
          </li>
        ))}
      </ul>
      <p class="label soft">{w.common.advice}</p>
    </section>
  )
}

/** Minutes above a limit add up over the runs of one job: the metal beside a zone is warmed by the next one, too. */
function isEarlier(card: Card, run: string, view: RunView): boolean {
  return (card.entries.get(run)?.entry.at_ms ?? 0) < view.on.entry.at_ms
}

function Line({ line: { code, values, standing } }: { line: VerdictLine }): JSX.Element {
  const [figure, limit] = values
  return (
    <>
      <span>{words.line[code]}</span>
      <strong class="num">{amount(figure)}</strong>
      <span class="label soft">{limit ? words.limit(amount(limit)) : words.standing.not_judged}</span>
      {standing !== 'not_judged' && (
        <span class={standing === 'not_recorded' ? 'whole' : ''}>
          <StateWord state={STATE[standing]} word={words.standing[standing]} />
        </span>
      )}
    </>
  )
}

function amount(value: ResultValue | undefined): string {
  return value === undefined ? '' : quantity(value.value, value.decimals, value.unit)
}
