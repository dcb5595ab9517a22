// Under a heat run of the job page: its curves with the forecast, the verdict by the entries, and its loggers.
import type { JSX } from 'preact'
import { useMemo } from 'preact/hooks'
import type { CardState } from '../../core/state.ts'
import type { CardPlan } from '../../core/views/card_plans.ts'
import { runViewOf } from '../../core/views/heat_view.ts'
import type { JobLog } from '../../core/views/office_log.ts'
import { officeRunCard } from '../../core/views/office_run_card.ts'
import type { RunView } from '../../core/views/office_runs.ts'
import type { JudgedRun } from '../../office_api/readings.ts'
import { ForecastPart } from '../phone/forecast_part.tsx'
import { RunChartPart } from '../phone/run_chart.tsx'
import { runVerdictWords } from '../words/en_verdict.ts'
import { quantity } from '../words/format.ts'
import { readingWords as words } from '../words/office_en_readings.ts'
import { useSecond } from './office_clock.tsx'
import { ReadingsLoggers } from './readings_loggers.tsx'
import './readings.css'

type Props = {
  log: JobLog
  state: CardState
  run: RunView
  verdict: JudgedRun | undefined
  /** Pinned to the job's zones; undefined while they are not heard. */
  plans: readonly CardPlan[] | undefined
  onRead: () => void
}

export function ReadingsRun({ log, state, run, verdict, plans, onRead }: Props): JSX.Element {
  return (
    <>
      <Curves log={log} state={state} run={run} plans={plans} />
      {verdict && verdict.lines.length > 0 && <Verdict verdict={verdict} />}
      <ReadingsLoggers log={log} run={run} onRead={onRead} />
    </>
  )
}

function Curves({ log, state, run, plans }: Omit<Props, 'verdict' | 'onRead'>): JSX.Element | null {
  const now_ms = useSecond()
  const card = useMemo(() => officeRunCard(log, state, plans), [log, state, plans])
  const view = useMemo(() => runViewOf(card, run.run), [card, run.run])
  if (view === undefined) return null
  const over = run.state === 'cold' || run.state === 'aborted'
  const last_ms = Math.max(
    0,
    ...view.acts.map(({ run_ms }) => run_ms),
    ...view.moments.map((one) => one.run_ms),
  )
  const elapsed_ms = over ? last_ms : Math.max(last_ms, now_ms - run.on_ms)
  return (
    <>
      {!over && <ForecastPart card={card} view={view} elapsed_ms={elapsed_ms} onMended={undefined} />}
      <RunChartPart card={card} view={view} now_ms={elapsed_ms} />
    </>
  )
}

type Line = JudgedRun['lines'][number]

function Verdict({ verdict }: { verdict: JudgedRun }): JSX.Element {
  const { overall, over, lines, earlier, model, aborted } = verdict
  const word = runVerdictWords.overall[overall]
  return (
    <section class="o-verdict" aria-label={words.verdict}>
      <h4>{words.verdict}</h4>
      <p class={overall === 'not_conforming' ? 'in-stop' : ''}>
        <strong>{over ? word : words.soFar(`${word.charAt(0).toLowerCase()}${word.slice(1)}`)}</strong>{' '}
        {aborted && words.aborted}
      </p>
      <table class="o-verdict-lines">
        <tbody>
          {lines.map((line) => (
            <tr key={line.code} class={line.standing === 'not_conforming' ? 'in-stop' : ''}>
              <th scope="row">{runVerdictWords.line[line.code]}</th>
              <td>
                <span class="num">{amount(line.figure)}</span>
                {line.limit && <small>{words.limit(amount(line.limit))}</small>}
              </td>
              <td>{line.standing === 'pending' ? words.pending : runVerdictWords.standing[line.standing]}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="o-note">
        {earlier.length > 0 && words.earlier(earlier.length)} {words.model(model)}
      </p>
    </section>
  )
}

function amount({ value, decimals, unit }: Line['figure']): string {
  return quantity(value, decimals, unit)
}
