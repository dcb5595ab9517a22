/** A run's readings as curves: coldest and hottest of the bond, hottest metal, hottest neighbour. */
import type { RunRow } from '../live/verdict.ts'
import type { SensorOf } from '../method.ts'
import type { Card } from './card.ts'
import type { RunView } from './heat_view.ts'
import { rowsOf } from './run_rows.ts'

export type Point = { readonly run_ms: number; readonly value: number }

export type RunChart = {
  readonly lagging: readonly Point[]
  readonly leading: readonly Point[]
  readonly metal: readonly Point[]
  readonly neighbour: readonly Point[]
  readonly min: number
  readonly max: number
  readonly metal_max: number | undefined
  readonly neighbour_max: number | undefined
  /** Run clock from the first to the last whole reading at or above the minimum, until the release. */
  readonly soak: readonly [from_ms: number, to_ms: number] | undefined
}

export function runChartOf(card: Pick<Card, 'entries'>, view: RunView): RunChart {
  const rows = rowsOf(card, view.run, view.zone)
  const { lagging_min, leading_max, metal_max, neighbour_max } = view.ask.settings
  const released = view.acts.find(({ act }) => act === 'turn_down' || act === 'lift' || act === 'off')
  const until_ms = released?.run_ms ?? Number.POSITIVE_INFINITY
  const warm = view.moments.filter((one) => one.lagging >= lagging_min && one.run_ms <= until_ms)
  const [first, last] = [warm[0], warm.at(-1)]
  return {
    lagging: view.moments.map(({ run_ms, lagging }) => ({ run_ms, value: lagging })),
    leading: view.moments.map(({ run_ms, leading }) => ({ run_ms, value: leading })),
    metal: hottest(rows, 'metal'),
    neighbour: hottest(rows, 'neighbour'),
    ...{ min: lagging_min, max: leading_max, metal_max, neighbour_max },
    soak: first && last ? [first.run_ms, last.run_ms] : undefined,
  }
}

type Course = Pick<RunView, 'phase' | 'acts' | 'sensors'>

/** Nothing heats it any more: cold, or aborted, whether or not anybody wrote that it is cold. */
export const hasEnded = ({ phase }: Pick<RunView, 'phase'>): boolean =>
  phase === 'over' || phase === 'aborted'

/** Run clock up to which a run is drawn: one that has ended up to what was last written, whatever the clock says. */
export function chartEnd(view: Course, now_ms: number): number {
  if (!hasEnded(view)) return now_ms
  return Math.max(...view.acts.map(({ run_ms }) => run_ms), ...view.sensors.map(({ run_ms }) => run_ms ?? 0))
}

function hottest(rows: readonly RunRow[], of: SensorOf): readonly Point[] {
  const at = new Map<number, number>()
  for (const row of rows)
    if (row.of === of) at.set(row.run_ms, Math.max(row.value, at.get(row.run_ms) ?? row.value))
  return [...at].map(([run_ms, value]) => ({ run_ms, value }))
}
