/** A heat run as the phone shows it: its phase, what is due next and when, and how its sensors stand. */
import { isHeatOn, isRunReading } from '../entries.ts'
import type { HeatRunAsk, Named, ZoneDoc } from '../method.ts'
import type { RunState } from '../state.ts'
import { askOf, type Card, type Known, knownOf, placeOf, type StepPlace } from './card.ts'
import { type CardPlan, planFor } from './card_plans.ts'
import { forecastOf, type LiveForecast } from './forecast_view.ts'
import { alarmsOf, type RunAlarm } from './run_alarms.ts'
import { type HeatPhase, type NextOfRun, nextOf, phaseOf, phaseStart, type RunFacts } from './run_next.ts'
import { type ActRow, actRowsOf, rowsOf } from './run_rows.ts'
import { type Moment, momentsOf, openRound, type Round, type SensorView, sensorsOf } from './run_sensors.ts'
import { isHot } from './statuses.ts'

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
  readonly acts: readonly ActRow[]
  readonly moments: readonly Moment[]
  /** Readings of one moment that are not all there yet: the soak counts only whole ones. */
  readonly round: Round | undefined
  /** Before this the sensors have to be read again, or the soak stops counting. */
  readonly read_by_ms: number | undefined
  readonly soak_want_ms: number
  /** How far the last readings' lagging sensor is below the minimum; 0 = not. */
  readonly short_by: number
  readonly alarms: readonly RunAlarm[]
  readonly padsOn: readonly Named[]
  readonly typedLate: boolean
  /** The pinned plan of this zone, and what it says to the readings; absent while its set is not here. */
  readonly plan: CardPlan | undefined
  readonly forecast: LiveForecast | undefined
  readonly planned?: NonNullable<RunFacts['planned']>
}

export function runViewOf(card: Card, hash: string): RunView | undefined {
  const run = card.state.runs.find((one) => one.run === hash)
  const on = knownOf(card, hash)
  const place = run && placeOf(card, run.method, run.step)
  const ask = place && run && askOf(place, run.ask)
  const zone = place?.method.zones.find((one) => one.id === run?.zone)
  if (!run || !on || !place || ask?.kind !== 'heat_run' || !zone) return undefined
  const { settings } = ask
  const rows = rowsOf(card, run, zone)
  const sensors = sensorsOf(rows, zone, settings)
  const acts = actRowsOf(card, run)
  const plan = planFor(card.plans, run.method, run.zone)
  const forecast = plan?.set && forecastOf(plan.set, { rows, acts, settings }, hash)
  const planned = plan?.set && { steps: plan.set.acts, soak_ms: forecast?.soak_ms }
  const facts: RunFacts = {
    ...{ run, ask, acts, moments: momentsOf(rows, zone), sensors },
    ...(planned === undefined ? {} : { planned }),
  }
  const phase = phaseOf(facts)
  const alarms = alarmsOf(facts, phase, rows).filter((alarm) => !isExplained(alarm, forecast))
  const moment = facts.moments.at(-1)
  const short_by = moment === undefined ? 0 : Math.max(0, settings.lagging_min - moment.lagging)
  return {
    ...facts,
    ...{ place, zone, on, phase, plan, forecast },
    phase_ms: phaseStart(facts, phase),
    next: nextOf(facts, phase, looseOf(alarms) ?? liftingOf(forecast, phase)),
    round: openRound(rows, zone),
    read_by_ms: phase === 'soak' && moment ? moment.run_ms + settings.gap_max_s * 1000 : undefined,
    soak_want_ms: settings.soak_s * 1000,
    short_by: phase === 'soak' ? short_by : 0,
    alarms,
    padsOn: zone.pads.filter((pad) => !run.lifted.includes(pad.id)),
    typedLate: [...run.acts, ...run.readings].some((one) => isTyped(card, one)),
  }
}

/** A plan knows how far each sensor stays behind: only where its curves do not fit is that still a question. */
function isExplained({ code }: RunAlarm, forecast: LiveForecast | undefined): boolean {
  if (code !== 'behind' || forecast === undefined || forecast.counted === 0) return false
  return !['draught', 'wrong_stack_up'].includes(forecast.fit.looks_like)
}

function looseOf(alarms: readonly RunAlarm[]): string | undefined {
  return alarms.flatMap((one) => (one.code === 'contact' ? one.pads : []))[0]
}

/** A pad that seems to lift is called for as one that does not touch: waiting does not help. */
function liftingOf(forecast: LiveForecast | undefined, phase: HeatPhase): string | undefined {
  if (phase !== 'ramp' && phase !== 'soak') return undefined
  return forecast?.fit.looks_like === 'pad_lifting' ? forecast.fit.names : undefined
}

function isTyped(card: Card, hash: string): boolean {
  const entry = knownOf(card, hash)?.entry
  if (entry?.kind === 'heat') return !isHeatOn(entry.body) && entry.body.typed_time
  return entry?.kind === 'reading' && isRunReading(entry.body) && entry.body.typed_time
}

/** A limit is passed now: this one rings. */
export function isOver(view: RunView): boolean {
  return view.alarms.some(({ code }) => code === 'over')
}

/** Sensors that nobody has read for longer than the method allows, while the run heats or soaks. */
export function silentOf(view: RunView, elapsed_ms: number): readonly SensorView[] {
  if (view.phase !== 'soak' && !(view.phase === 'ramp' && view.moments.length > 0)) return []
  const limit_ms = view.ask.settings.gap_max_s * 1000
  return view.sensors.filter(({ run_ms }) => run_ms === undefined || elapsed_ms - run_ms > limit_ms)
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
