/** What the chart shows of a plan: the band of the lagging sensor while it heats, its planned curve from the release on. */

import type { Card } from './card.ts'
import { toldOf } from './forecast_told.ts'
import { laggingBand, plannedLagging } from './forecast_view.ts'
import type { RunView } from './heat_view.ts'
import { behindPlanMs } from './planned_release.ts'
import type { Point } from './run_chart_view.ts'

/** Values at the scale of the readings. */
export type ForecastChart = {
  readonly band: readonly { readonly run_ms: number; readonly low: number; readonly high: number }[]
  readonly middle: readonly Point[]
  /** Until when the forecast is shown. */
  readonly until_ms: number
}

const AFTER_RELEASE_MS = 30 * 60_000

export function forecastChartOf(card: Card, view: RunView, elapsed_ms: number): ForecastChart | undefined {
  const { plan, forecast } = view
  if (plan?.set === undefined || forecast === undefined) return undefined
  return view.run.turned_down.length + view.run.lifted.length > 0 || view.run.off
    ? plannedChart(view, elapsed_ms)
    : heatingChart(card, view, elapsed_ms)
}

/** Not while the readings look like anything else: then it is no forecast of them. */
function heatingChart(card: Card, view: RunView, elapsed_ms: number): ForecastChart | undefined {
  const { plan, forecast, ask } = view
  const told = toldOf(card, view, elapsed_ms)
  if (plan?.set === undefined || forecast === undefined || !('times' in told)) return undefined
  const { workable_ms, pads_on_ms } = told.times
  const until_ms = Math.max(pads_on_ms ?? workable_ms, elapsed_ms)
  const scale = 10 ** ask.settings.decimals
  const band = laggingBand(plan.set, forecast).filter(({ at_s }) => at_s * 1000 <= until_ms)
  return {
    band: band.map(({ at_s, low_C, high_C }) => ({
      run_ms: at_s * 1000,
      low: low_C * scale,
      high: high_C * scale,
    })),
    middle: band.map(({ at_s, mid_C }) => ({ run_ms: at_s * 1000, value: mid_C * scale })),
    until_ms,
  }
}

function plannedChart(view: RunView, elapsed_ms: number): ForecastChart | undefined {
  const { plan, planned, ask } = view
  const behind_ms = planned && behindPlanMs(planned.steps, view)
  if (plan?.set === undefined || planned === undefined || behind_ms === undefined) return undefined
  const from_s = planned.steps[0]?.at_s ?? 0
  const ahead_ms = (planned.steps.at(-1)?.at_s ?? 0) * 1000 + behind_ms + AFTER_RELEASE_MS
  const until_ms = view.phase === 'over' ? elapsed_ms : Math.max(elapsed_ms, ahead_ms)
  const scale = 10 ** ask.settings.decimals
  const middle = plannedLagging(plan.set)
    .filter(({ at_s }) => at_s >= from_s)
    .map(({ at_s, T_C }) => ({ run_ms: at_s * 1000 + behind_ms, value: T_C * scale }))
    .filter(({ run_ms }) => run_ms <= until_ms)
  return { band: [], middle, until_ms }
}
