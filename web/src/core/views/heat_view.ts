/** A heat run as the phone shows it: its phase, what is due next and when, and how its sensors stand. */
import { isHeatOn, isRunReading, type LaterAct } from '../entries.ts'
import type { HeatRunAsk, Named, ZoneDoc } from '../method.ts'
import type { RunState } from '../state.ts'
import { askOf, type Card, type Known, knownOf, placeOf, type StepPlace } from './card.ts'
import { isHot } from './statuses.ts'

export type SensorView = Named & {
  readonly value: number | undefined
  readonly run_ms: number | undefined
  readonly before: number | undefined
  readonly is: 'leading' | 'lagging' | ''
}

export type HeatPhase = 'ramp' | 'soak' | 'workable' | 'release' | 'cooling' | 'over' | 'aborted'

/** What the run wants next; `due_ms` is on the run clock, absent where no time is set for it. */
export type NextOfRun = {
  readonly act: 'read' | LaterAct
  readonly pad: string
  readonly due_ms: number | undefined
  /** What the countdown leads to. */
  readonly leads: 'soak' | 'soaked' | ''
}

export type RunView = {
  readonly run: RunState
  readonly place: StepPlace
  readonly ask: HeatRunAsk
  readonly zone: ZoneDoc
  readonly on: Known
  readonly phase: HeatPhase
  /** Run clock at which the phase began. */
  readonly phase_ms: number
  readonly next: NextOfRun
  readonly sensors: readonly SensorView[]
  /** Readings of one moment that are not all there yet: the soak counts only whole ones. */
  readonly round: { readonly run_ms: number; readonly missing: readonly string[] } | undefined
  /** Before this the sensors have to be read again, or the soak stops counting. */
  readonly read_by_ms: number | undefined
  readonly soak_want_ms: number
  /** How far the last readings' lagging sensor is below the minimum; 0 = not. */
  readonly short_by: number
  readonly over_by: { readonly sensor: string; readonly by: number } | undefined
  readonly padsOn: readonly Named[]
  readonly typedLate: boolean
}

export function runViewOf(card: Card, hash: string): RunView | undefined {
  const run = card.state.runs.find((one) => one.run === hash)
  const on = knownOf(card, hash)
  const place = run && placeOf(card, run.method, run.step)
  const ask = place && run && askOf(place, run.ask)
  const zone = place?.method.zones.find((one) => one.id === run?.zone)
  if (!run || !on || !place || ask?.kind !== 'heat_run' || !zone) return undefined
  const sensors = sensorsOf(card, run, zone)
  const { settings } = ask
  const moments = wholeMoments(card, run, zone)
  const moment = moments.at(-1)
  const short_by = moment === undefined ? 0 : Math.max(0, settings.lagging_min - moment.lagging)
  const soaking = moment !== undefined && short_by === 0
  const phase = phaseOf(
    run,
    moments.some((one) => one.lagging >= settings.lagging_min),
  )
  const over = sensors.find((one) => (one.value ?? 0) > settings.leading_max)
  return {
    run,
    place,
    ask,
    zone,
    on,
    phase,
    phase_ms: phaseStart(card, run, phase, moment),
    next: nextOf(run, ask, phase, soaking, moment),
    sensors,
    round: openRound(card, run, zone),
    read_by_ms: phase === 'soak' && moment ? moment.run_ms + settings.gap_max_s * 1000 : undefined,
    soak_want_ms: settings.soak_s * 1000,
    short_by: phase === 'soak' || run.soak_ms > 0 ? short_by : 0,
    over_by: over && { sensor: over.id, by: (over.value ?? 0) - settings.leading_max },
    padsOn: zone.pads.filter((pad) => !run.lifted.includes(pad.id)),
    typedLate: [...run.acts, ...run.readings].some((one) => isTyped(card, one)),
  }
}

function isTyped(card: Card, hash: string): boolean {
  const entry = knownOf(card, hash)?.entry
  if (entry?.kind === 'heat') return !isHeatOn(entry.body) && entry.body.typed_time
  return entry?.kind === 'reading' && isRunReading(entry.body) && entry.body.typed_time
}

function phaseOf(run: RunState, wasWarm: boolean): HeatPhase {
  const has = (moment: RunState['moments'][number]) => run.moments.includes(moment)
  if (has('cold')) return 'over'
  if (run.aborted) return 'aborted'
  if (run.off) return 'cooling'
  if (run.lifted.length + run.turned_down.length > 0) return 'release'
  if (has('workable') || has('soaked')) return 'workable'
  return wasWarm ? 'soak' : 'ramp'
}

function phaseStart(card: Card, run: RunState, phase: HeatPhase, moment: Moment | undefined): number {
  const begins: Partial<Record<HeatPhase, readonly string[]>> = {
    workable: ['soaked'],
    release: ['turn_down', 'lift'],
    cooling: ['off'],
    over: ['cold'],
    aborted: ['abort'],
  }
  const acts = run.acts.flatMap((hash) => {
    const entry = knownOf(card, hash)?.entry
    return entry?.kind === 'heat' && !isHeatOn(entry.body) ? [entry.body] : []
  })
  const first = acts.find((act) => begins[phase]?.includes(act.act))
  if (phase === 'soak') return run.soak_ms > 0 ? run.soak_counts_to_ms - run.soak_ms : (moment?.run_ms ?? 0)
  return first?.run_ms ?? 0
}

function nextOf(
  run: RunState,
  ask: HeatRunAsk,
  phase: HeatPhase,
  soaking: boolean,
  moment: Moment | undefined,
): NextOfRun {
  const { settings } = ask
  const none = { pad: '', due_ms: undefined, leads: '' } as const
  switch (phase) {
    case 'ramp':
      return { act: 'read', pad: '', due_ms: rampDue(settings, moment), leads: 'soak' }
    case 'soak':
      return soakNext(run, settings.soak_s * 1000, soaking, moment)
    case 'workable':
      if (ask.purpose === 'removal' && !run.moments.includes('workable')) return { ...none, act: 'workable' }
      return releaseNext(run, settings.release)
    case 'release':
      return releaseNext(run, settings.release)
    case 'cooling':
    case 'aborted':
      return { ...none, act: 'cold' }
    case 'over':
      return { ...none, act: 'remark' }
  }
}

/** When the forecast says that the soak begins; after that, as often as the method wants readings. */
function rampDue(settings: HeatRunAsk['settings'], moment: Moment | undefined): number {
  const again_ms = moment === undefined ? 0 : moment.run_ms + settings.gap_max_s * 1000
  return Math.max(settings.ramp_s * 1000, again_ms)
}

/** Counted to the last readings; from there it runs on as long as the lagging sensor held. */
function soakNext(run: RunState, want_ms: number, soaking: boolean, moment: Moment | undefined): NextOfRun {
  if (run.soak_ms >= want_ms)
    return { act: 'soaked', pad: '', due_ms: run.soak_counts_to_ms, leads: 'soaked' }
  const due_ms = soaking && moment ? moment.run_ms + want_ms - run.soak_ms : undefined
  return { act: 'read', pad: '', due_ms, leads: 'soaked' }
}

function releaseNext(run: RunState, release: readonly string[]): NextOfRun {
  const none = { due_ms: undefined, leads: '' } as const
  const pad = release.find((one) => !run.lifted.includes(one))
  return pad === undefined ? { ...none, act: 'off', pad: '' } : { ...none, act: 'lift', pad }
}

type Reading = { readonly sensor: string; readonly run_ms: number; readonly value: number }

function readingsOf(card: Card, run: RunState): readonly Reading[] {
  return run.readings.flatMap((hash) => {
    const entry = knownOf(card, hash)?.entry
    if (entry?.kind !== 'reading' || !isRunReading(entry.body)) return []
    const { sensor, points } = entry.body
    return points.map(([run_ms, value]) => ({ sensor, run_ms, value }))
  })
}

type Moment = { readonly run_ms: number; readonly lagging: number }

function valuesAt(card: Card, run: RunState): ReadonlyMap<number, ReadonlyMap<string, number>> {
  const at = new Map<number, Map<string, number>>()
  for (const { sensor, run_ms, value } of readingsOf(card, run)) {
    const values = at.get(run_ms) ?? new Map<string, number>()
    at.set(run_ms, values.set(sensor, Math.min(value, values.get(sensor) ?? value)))
  }
  return at
}

/** The times at which every sensor was read, each with the coldest, in order. */
function wholeMoments(card: Card, run: RunState, zone: ZoneDoc): readonly Moment[] {
  return [...valuesAt(card, run)]
    .filter(([, values]) => zone.sensors.every(({ id }) => values.has(id)))
    .map(([run_ms, values]) => ({ run_ms, lagging: Math.min(...values.values()) }))
    .sort((one, other) => one.run_ms - other.run_ms)
}

/** The newest moment, if sensors are still missing from it. */
function openRound(card: Card, run: RunState, zone: ZoneDoc): RunView['round'] {
  const [run_ms, values] = [...valuesAt(card, run)].sort(([a], [b]) => a - b).at(-1) ?? [0, new Map()]
  const missing = zone.sensors.map(({ id }) => id).filter((id) => !values.has(id))
  return values.size > 0 && missing.length > 0 ? { run_ms, missing } : undefined
}

function sensorsOf(card: Card, run: RunState, zone: ZoneDoc): readonly SensorView[] {
  const all = [...readingsOf(card, run)].sort((a, b) => a.run_ms - b.run_ms)
  const last = zone.sensors.map((sensor) => {
    const own = all.filter((one) => one.sensor === sensor.id)
    return { sensor, last: own.at(-1), before: own.at(-2) }
  })
  const values = last.flatMap((one) => (one.last === undefined ? [] : [one.last.value]))
  const [low, high] = [Math.min(...values), Math.max(...values)]
  const extreme = (value: number | undefined): SensorView['is'] => {
    if (value === undefined || low === high) return ''
    return value === high ? 'leading' : value === low ? 'lagging' : ''
  }
  return last.map(({ sensor, last: now, before }) => ({
    ...sensor,
    value: now?.value,
    run_ms: now?.run_ms,
    before: before?.value,
    is: extreme(now?.value),
  }))
}

export type Due = {
  readonly remaining_ms: number
  readonly due: boolean
  /** `readings`: the gap of the soak runs out, or has run out and the soak pauses. */
  readonly of: 'next' | 'readings'
}

/** How long until the next act; negative once it is overdue. Readings that are due come before a soak's end. */
export function dueOf(view: RunView, elapsed_ms: number): Due | undefined {
  const { read_by_ms, next } = view
  if (next.act === 'read' && read_by_ms !== undefined && elapsed_ms >= read_by_ms) {
    const due_ms = Math.min(read_by_ms, next.due_ms ?? read_by_ms)
    return { remaining_ms: due_ms - elapsed_ms, due: true, of: 'readings' }
  }
  if (next.due_ms === undefined) return undefined
  const remaining_ms = next.due_ms - elapsed_ms
  return { remaining_ms, due: remaining_ms <= 0, of: 'next' }
}

/** Runs that are not cold yet, the latest first. */
export function hotRunsOf(card: Card): readonly RunView[] {
  return card.state.runs
    .filter(isHot)
    .flatMap((run) => runViewOf(card, run.run) ?? [])
    .sort((a, b) => b.on.entry.at_ms - a.on.entry.at_ms)
}
