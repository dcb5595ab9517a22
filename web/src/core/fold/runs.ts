/** Heat runs: their acts, moments, soak and peak, by the run's own clock. */
import type { Entry, HeatActBody, HeatOnBody, LaterAct } from '../entries.ts'
import { isHeatOn, isRunReading } from '../entries.ts'
import { MOMENTS, type Moment, sensorOf, stepsOf, type ZoneDoc } from '../method.ts'
import type { RunState } from '../state.ts'
import { type Log, unstruck } from './log.ts'
import { byText, grouped, sorted } from './order.ts'
import { type Methods, methodOf } from './revisions.ts'
import { type Judging, type RunReading, soakOf } from './soak.ts'

type Heat = Extract<Entry, { kind: 'heat' }>
export type OnEntry = Heat & { readonly body: HeatOnBody }
export type ActEntry = Heat & { readonly body: HeatActBody }
export type Run = {
  readonly on: OnEntry
  readonly acts: readonly ActEntry[]
  readonly readings: readonly RunReading[]
  /** Undefined where that document is not held. */
  readonly judging: Judging | undefined
  readonly state: RunState
}
export type Runs = {
  readonly runs: readonly Run[]
  /** Unstruck acts and readings of runs that are not there, by the run they name. */
  readonly strays: ReadonlyMap<string, readonly Entry[]>
}

export function readRuns(log: Log, methods: Methods): Runs {
  const heats = unstruck(log, 'heat')
  const ons = heats.filter((entry): entry is OnEntry => isHeatOn(entry.body))
  const acts = grouped(
    heats.filter((entry): entry is ActEntry => !isHeatOn(entry.body)),
    (entry) => entry.body.run,
  )
  const readings = grouped(
    unstruck(log, 'reading').filter((entry): entry is RunReading => isRunReading(entry.body)),
    (entry) => entry.body.run,
  )
  const runs = ons.map((on) => runOf(on, acts.get(on.hash) ?? [], readings.get(on.hash) ?? [], methods))
  return { runs, strays: straysOf(new Set(ons.map((on) => on.hash)), acts, readings) }
}

function straysOf(
  runs: ReadonlySet<string>,
  acts: ReadonlyMap<string, readonly Entry[]>,
  readings: ReadonlyMap<string, readonly Entry[]>,
): Map<string, Entry[]> {
  const strays = new Map<string, Entry[]>()
  for (const [run, entries] of [...acts, ...readings]) {
    if (!runs.has(run)) strays.set(run, [...(strays.get(run) ?? []), ...entries])
  }
  return strays
}

function runOf(
  on: OnEntry,
  acts: readonly ActEntry[],
  readings: readonly RunReading[],
  methods: Methods,
): Run {
  const judging = judgingOf(on, methods)
  return { on, acts, readings, judging, state: runState(on, acts, readings, judging) }
}

function judgingOf({ body }: OnEntry, methods: Methods): Judging | undefined {
  const method = methodOf(methods, body.digest)
  const step = method && stepsOf(method).find((each) => each.id === body.step)
  const ask = step?.asks.find((each) => each.id === body.ask)
  const zone = method?.zones.find((each) => each.id === body.zone)
  if (ask?.kind !== 'heat_run') return undefined
  return { settings: ask.settings, sensors: zone === undefined ? new Map() : sensorsOf(zone) }
}

function sensorsOf(zone: ZoneDoc): Judging['sensors'] {
  return new Map(zone.sensors.map((sensor) => [sensor.id, sensorOf(sensor)]))
}

function runState(
  on: OnEntry,
  acts: readonly ActEntry[],
  readings: readonly RunReading[],
  judging: Judging | undefined,
): RunState {
  const { method, step, ask, zone, purpose } = on.body
  const has = (act: LaterAct) => acts.some((entry) => entry.body.act === act)
  const lifted = padsOf(acts, 'lift')
  return {
    run: on.hash,
    method,
    step,
    ask,
    zone,
    purpose,
    acts: inRunOrder(acts, (entry) => entry.body.run_ms),
    readings: inRunOrder(readings, (entry) => entry.body.points[0]?.[0] ?? 0),
    turned_down: padsOf(acts, 'turn_down'),
    lifted,
    moments: momentsOf(on, has, lifted),
    aborted: has('abort'),
    off: has('off'),
    ...soakOf(readings, judging),
  }
}

function inRunOrder<E extends Entry>(entries: readonly E[], timeOf: (entry: E) => number): string[] {
  return [...entries]
    .sort((one, other) => timeOf(one) - timeOf(other) || byText(one.hash, other.hash))
    .map((entry) => entry.hash)
}

function padsOf(acts: readonly ActEntry[], act: LaterAct): string[] {
  return sorted(acts.filter((entry) => entry.body.act === act).map((entry) => entry.body.pad))
}

/** Moments are acts, never computed; `lifted` is every pad of the `on`. */
function momentsOf(on: OnEntry, has: (act: LaterAct) => boolean, lifted: readonly string[]): Moment[] {
  const { pads } = on.body
  const came = (moment: Moment): boolean => {
    if (moment === 'on') return true
    if (moment === 'lifted') return pads.length > 0 && pads.every((pad) => lifted.includes(pad))
    return has(moment)
  }
  return MOMENTS.filter(came)
}
