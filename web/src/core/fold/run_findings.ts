/** Findings of heat runs: two at once, a soak too short, metal too hot, acts of no run. */
import { type Found, found } from './finding.ts'
import type { Ground } from './ground.ts'
import { grouped, hashesOf } from './order.ts'
import type { Run } from './runs.ts'
import { isOfRun, maximumAt } from './soak.ts'

export function runFindings({ runs }: Ground): Found[] {
  return [
    ...twoRuns(runs.runs),
    ...runs.runs.flatMap(soakShort),
    ...runs.runs.flatMap(overMaximum),
    ...[...runs.strays].map(([run, entries]) => found('run_unknown', [run], hashesOf(entries))),
  ]
}

/** A second run after an aborted one is how to go on. */
function twoRuns(runs: readonly Run[]): Found[] {
  const unaborted = runs.filter(({ state }) => !state.aborted)
  const byZone = grouped(unaborted, ({ state }) => `${state.method}\n${state.zone}`)
  return [...byZone.values()]
    .filter((group) => group.length > 1)
    .flatMap((group) => {
      const zone = group[0]?.state
      return zone === undefined
        ? []
        : found('two_runs', [zone.method, zone.zone], hashesOf(group.map(({ on }) => on)))
    })
}

function soakShort({ judging, state }: Run): Found[] {
  if (judging === undefined || state.aborted) return []
  const isOver = state.moments.includes('soaked') || state.moments.includes('off')
  if (!isOver || state.soak_ms >= judging.settings.soak_s * 1000) return []
  return [found('soak_short', [state.run], [state.run])]
}

function overMaximum({ judging, readings, state }: Run): Found[] {
  if (judging === undefined) return []
  const hot = readings.filter((reading) => {
    const maximum = maximumAt(reading.body.sensor, judging)
    return isOfRun(reading, judging) && reading.body.points.some(([, value]) => value > maximum)
  })
  return hot.length === 0 ? [] : [found('over_maximum', [state.run], hashesOf(hot))]
}
