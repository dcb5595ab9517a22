/** Rates of readings and times above a limit, straight between two readings. */

export type Row = readonly [run_ms: number, value: number]
export type Sensors = ReadonlyMap<string, readonly Row[]>

const MINUTE_MS = 60_000

/** Change per minute over at least a minute, at each reading that has one so far before it. */
export function ratesOf(rows: readonly Row[]): readonly number[] {
  let start = 0
  return rows.flatMap(([at, value]) => {
    while (start + 1 < rows.length && at - (rows[start + 1]?.[0] ?? at) >= MINUTE_MS) start += 1
    const [from, before] = rows[start] ?? [at, value]
    return at - from >= MINUTE_MS ? [((value - before) / (at - from)) * MINUTE_MS] : []
  })
}

/** The steepest rise up to `turn_ms` (1), or the steepest fall from then on (-1), of any of the sensors. */
export function steepest(sensors: Sensors, turn_ms: number, sign: 1 | -1): number {
  const rates = [...sensors.values()].flatMap((rows) =>
    ratesOf(rows.filter(([at]) => (sign === 1 ? at <= turn_ms : at >= turn_ms))),
  )
  return Math.max(0, ...rates.map((rate) => sign * rate))
}

/** How long a sensor was above a limit. */
export function aboveMs(rows: readonly Row[], limit: number): number {
  return rows.reduce((sum, [at, value], i) => {
    const before = rows[i - 1]
    return before === undefined ? sum : sum + (at - before[0]) * shareAbove(before[1] - limit, value - limit)
  }, 0)
}

function shareAbove(first: number, second: number): number {
  if (first > 0 && second > 0) return 1
  if (first <= 0 && second <= 0) return 0
  return Math.max(first, second) / (Math.abs(first) + Math.abs(second))
}

/** When every one of these sensors was read, each time with the coldest; of two values of a sensor the lower counts. */
export function wholeMoments(sensors: Sensors): readonly Row[] {
  const at = new Map<number, Map<string, number>>()
  for (const [sensor, rows] of sensors) {
    for (const [run_ms, value] of rows) {
      const values = at.get(run_ms) ?? new Map<string, number>()
      at.set(run_ms, values.set(sensor, Math.min(value, values.get(sensor) ?? value)))
    }
  }
  return [...at]
    .filter(([, values]) => values.size === sensors.size)
    .map(([run_ms, values]): Row => [run_ms, Math.min(...values.values())])
    .sort(([a], [b]) => a - b)
}
