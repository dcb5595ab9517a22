/** A run's readings and acts as rows on its own clock, with what each sensor is on. */
import { type HeatActBody, isHeatOn, isRunReading } from '../entries.ts'
import type { RunInput, RunRow } from '../live/verdict.ts'
import type { SensorOf, ZoneDoc } from '../method.ts'
import type { RunState } from '../state.ts'
import { bodyOf, type Card, knownOf, placeOf } from './card.ts'

export type ActRow = HeatActBody & { readonly hash: string }

export function rowsOf(card: Pick<Card, 'entries'>, run: RunState, zone: ZoneDoc): readonly RunRow[] {
  const of = new Map(zone.sensors.map((sensor) => [sensor.id, sensor.of ?? 'bond']))
  const rows = run.readings.flatMap((hash) => {
    const body = bodyOf(card, hash, 'reading')
    if (body === undefined || !isRunReading(body)) return []
    const what: SensorOf | undefined = of.get(body.sensor)
    if (what === undefined) return []
    return body.points.map(([run_ms, value]) => ({ sensor: body.sensor, of: what, run_ms, value }))
  })
  return rows.sort((a, b) => a.run_ms - b.run_ms)
}

/** In the order of the run's clock. */
export function actRowsOf(card: Pick<Card, 'entries'>, run: RunState): readonly ActRow[] {
  return run.acts
    .flatMap((hash) => {
      const body = bodyOf(card, hash, 'heat')
      return body === undefined || isHeatOn(body) ? [] : [{ ...body, hash }]
    })
    .sort((a, b) => a.run_ms - b.run_ms)
}

/** The run as the verdict wants it; undefined where its method is not pinned here. */
export function runInputOf(card: Card, run: RunState): RunInput | undefined {
  const on = knownOf(card, run.run)
  const zone = placeOf(card, run.method, run.step)?.method.zones.find((one) => one.id === run.zone)
  if (on === undefined || zone === undefined) return undefined
  const acts = actRowsOf(card, run).map(({ act, pad, run_ms }) => ({ act, pad, run_ms }))
  return { purpose: run.purpose, aborted: run.aborted, readings: rowsOf(card, run, zone), acts }
}
