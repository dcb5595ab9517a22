// The readings of a run against its limits: a chart, and the same as a table for the ear and the eye.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { forecastChartOf } from '../../core/views/forecast_chart.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { chartEnd, hasEnded, runChartOf } from '../../core/views/run_chart_view.ts'
import { RunChart } from '../parts/run_chart.tsx'
import { chartWords } from '../words/en_chart.ts'
import { clockTime, countdown, scaled, unitName } from '../words/format.ts'

type Props = { card: Card; view: RunView; now_ms: number }

export function RunChartPart({ card, view, now_ms: clock_ms }: Props): JSX.Element | null {
  const now_ms = chartEnd(view, clock_ms)
  const chart = runChartOf(card, view)
  const { decimals, sensors_unit, ramp_s, soak_s } = view.ask.settings
  const forecast = forecastChartOf(card, view, now_ms)
  if (chart.lagging.length + chart.metal.length === 0 && forecast === undefined) return null
  const value = (one: number | undefined) => (one === undefined ? '' : scaled(one, decimals))
  const at = (points: readonly { run_ms: number; value: number }[], run_ms: number) =>
    value(points.find((one) => one.run_ms === run_ms)?.value)
  const times = [...new Set([...chart.lagging, ...chart.metal].map(({ run_ms }) => run_ms))].sort(
    (a, b) => a - b,
  )
  return (
    <figure class="run-chart">
      <RunChart
        chart={chart}
        forecast={forecast}
        now_ms={now_ms}
        until_ms={
          forecast?.until_ms ??
          (hasEnded(view)
            ? now_ms
            : Math.max(now_ms, Math.min((ramp_s + soak_s) * 1000, now_ms + 30 * 60_000)))
        }
        scale={10 ** decimals}
        words={{
          min: chartWords.min(value(chart.min)),
          max: chartWords.max(value(chart.max)),
          metal: chart.metal_max === undefined ? '' : chartWords.metal(value(chart.metal_max)),
          neighbour:
            chart.neighbour_max === undefined ? '' : chartWords.neighbour(value(chart.neighbour_max)),
        }}
        timeOf={(run_ms) => clockTime(view.on.entry.at_ms + run_ms)}
        label={forecast ? chartWords.labelExpected(times.length) : chartWords.label(times.length)}
      />
      {forecast && (
        <p class="label soft">{forecast.band.length > 0 ? chartWords.band : chartWords.planned}</p>
      )}
      <details>
        <summary>{chartWords.inFigures(unitName(sensors_unit))}</summary>
        <table>
          <thead>
            <tr>
              <th scope="col">{chartWords.after}</th>
              <th scope="col">{chartWords.lagging}</th>
              <th scope="col">{chartWords.leading}</th>
              {chart.metal.length > 0 && <th scope="col">{chartWords.onMetal}</th>}
              {chart.neighbour.length > 0 && <th scope="col">{chartWords.onNeighbour}</th>}
            </tr>
          </thead>
          <tbody>
            {times.map((run_ms) => (
              <tr key={run_ms}>
                <th scope="row">{countdown(run_ms)}</th>
                <td>{at(chart.lagging, run_ms)}</td>
                <td>{at(chart.leading, run_ms)}</td>
                {chart.metal.length > 0 && <td>{at(chart.metal, run_ms)}</td>}
                {chart.neighbour.length > 0 && <td>{at(chart.neighbour, run_ms)}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </figure>
  )
}
