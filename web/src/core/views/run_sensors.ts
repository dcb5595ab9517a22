/** The sensors of a run as last read: leading, lagging, against their own limits, and how fast they change. */
import { ratesOf } from '../live/curves.ts'
import type { RunRow } from '../live/verdict.ts'
import type { HeatSettings, Named, SensorOf, ZoneDoc } from '../method.ts'

export type SensorView = Named & {
  readonly of: SensorOf
  readonly value: number | undefined
  readonly run_ms: number | undefined
  readonly before: number | undefined
  readonly is: 'leading' | 'lagging' | ''
  /** The limit of what it is on. */
  readonly max: number | undefined
  /** How far it is above that limit, below it (negative), or undefined without either. */
  readonly over: number | undefined
  /** Change per minute over the last minute or more; undefined until two readings are that far apart. */
  readonly rate: number | undefined
}

/** When every bond sensor was read, with the coldest and the hottest of them. */
export type Moment = { readonly run_ms: number; readonly lagging: number; readonly leading: number }

export function maxOf(settings: HeatSettings, of: SensorOf): number | undefined {
  switch (of) {
    case 'bond':
      return settings.leading_max
    case 'metal':
      return settings.metal_max
    case 'neighbour':
      return settings.neighbour_max
  }
}

export function sensorsOf(
  rows: readonly RunRow[],
  zone: ZoneDoc,
  settings: HeatSettings,
): readonly SensorView[] {
  const views = zone.sensors.map((sensor) => {
    const of = sensor.of ?? 'bond'
    const own = rows.filter((row) => row.sensor === sensor.id)
    const [now, before] = [own.at(-1), own.at(-2)]
    const max = maxOf(settings, of)
    return {
      ...{ id: sensor.id, name: sensor.name, of, max },
      value: now?.value,
      run_ms: now?.run_ms,
      before: before?.value,
      over: now === undefined || max === undefined ? undefined : now.value - max,
      rate: lastRate(own),
    }
  })
  const bond = views.flatMap((one) => (one.of === 'bond' && one.value !== undefined ? [one.value] : []))
  const [low, high] = [Math.min(...bond), Math.max(...bond)]
  const place = (one: { of: SensorOf; value: number | undefined }): SensorView['is'] => {
    if (one.of !== 'bond' || one.value === undefined || low === high) return ''
    return one.value === high ? 'leading' : one.value === low ? 'lagging' : ''
  }
  return views.map((one) => ({ ...one, is: place(one) }))
}

function lastRate(own: readonly RunRow[]): number | undefined {
  const rows = own.map((row) => [row.run_ms, row.value] as const)
  const last = rows.at(-1)
  const before = last && rows.filter(([at]) => last[0] - at >= 60_000).at(-1)
  return before === undefined || last === undefined ? undefined : ratesOf([before, last])[0]
}

function valuesAt(rows: readonly RunRow[]): ReadonlyMap<number, ReadonlyMap<string, number>> {
  const at = new Map<number, Map<string, number>>()
  for (const { sensor, run_ms, value } of rows) {
    const values = at.get(run_ms) ?? new Map<string, number>()
    at.set(run_ms, values.set(sensor, Math.min(value, values.get(sensor) ?? value)))
  }
  return at
}

/** The times at which every bond sensor was read, in order; what is on metal or beside it does not count. */
export function momentsOf(rows: readonly RunRow[], zone: ZoneDoc): readonly Moment[] {
  const bond = zone.sensors.filter((sensor) => (sensor.of ?? 'bond') === 'bond').map(({ id }) => id)
  return [...valuesAt(rows.filter((row) => row.of === 'bond'))]
    .filter(([, values]) => bond.length > 0 && bond.every((id) => values.has(id)))
    .map(([run_ms, values]) => ({
      run_ms,
      lagging: Math.min(...values.values()),
      leading: Math.max(...values.values()),
    }))
    .sort((one, other) => one.run_ms - other.run_ms)
}

export type Round = { readonly run_ms: number; readonly missing: readonly string[] }

/** The newest time of a reading, if sensors are still missing from it. */
export function openRound(rows: readonly RunRow[], zone: ZoneDoc): Round | undefined {
  const [run_ms, values] = [...valuesAt(rows)].sort(([a], [b]) => a - b).at(-1) ?? [0, new Map()]
  const missing = zone.sensors.map(({ id }) => id).filter((id) => !values.has(id))
  return values.size > 0 && missing.length > 0 ? { run_ms, missing } : undefined
}
