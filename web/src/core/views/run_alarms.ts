/** What the readings of a run say that somebody must hear: limits passed, rates, jumps, contact, power. */
import { remarkOf } from '../live/remarks.ts'
import type { RunRow } from '../live/verdict.ts'
import type { SensorOf } from '../method.ts'
import type { HeatPhase, RunFacts } from './run_next.ts'
import type { SensorView } from './run_sensors.ts'

/**
 * `over` rings; the others are advice. `by` is at the scale of the readings: kelvin, or kelvin per minute above
 * the rate's limit; `limit` is that limit.
 */
export type RunAlarm =
  | { readonly code: 'over'; readonly of: SensorOf; readonly sensor: string; readonly by: number }
  | {
      readonly code: 'ramp' | 'cooling'
      readonly sensor: string
      readonly rate: number
      readonly limit: number
    }
  | {
      readonly code: 'jump'
      readonly sensor: string
      readonly from: number
      readonly to: number
      readonly run_ms: number
    }
  /** A pad has reached its setpoint while a bond sensor stays far behind: it does not touch. */
  | {
      readonly code: 'contact'
      readonly pads: readonly string[]
      readonly sensor: string
      readonly by: number
    }
  /** The same sensor behind, and nobody has said whether a pad is at its setpoint. */
  | { readonly code: 'behind'; readonly sensor: string; readonly by: number }
  | { readonly code: 'power'; readonly since_ms: number }

/** A bond sensor this far behind the next one is not explained by where it sits. Common practice, no source. */
const BEHIND_K = 30
/** No bond changes faster than this, K/min: a sensor fell off, or a digit slipped. Common practice, no source. */
const JUMP_K_PER_MIN = 60

const HEATING: readonly HeatPhase[] = ['ramp', 'soak', 'workable']
const FALLING: readonly HeatPhase[] = ['release', 'cooling']

export function alarmsOf(facts: RunFacts, phase: HeatPhase, rows: readonly RunRow[]): readonly RunAlarm[] {
  if (phase === 'over') return []
  return [
    ...facts.sensors.flatMap(overOf),
    ...powerOf(facts),
    ...contactOf(facts, phase),
    ...facts.sensors.flatMap((sensor) => rateOf(facts, phase, sensor)),
    ...facts.sensors.flatMap((sensor) => jumpOf(facts, sensor, rows)),
  ]
}

function overOf({ id, of, over }: SensorView): readonly RunAlarm[] {
  return over !== undefined && over > 0 ? [{ code: 'over', of, sensor: id, by: over }] : []
}

function rateOf({ ask }: RunFacts, phase: HeatPhase, sensor: SensorView): readonly RunAlarm[] {
  const { ramp_max, cooling_max } = ask.settings
  const { rate, id } = sensor
  if (rate === undefined || sensor.of !== 'bond') return []
  if (HEATING.includes(phase) && ramp_max !== undefined && rate > ramp_max)
    return [{ code: 'ramp', sensor: id, rate, limit: ramp_max }]
  if (FALLING.includes(phase) && cooling_max !== undefined && -rate > cooling_max)
    return [{ code: 'cooling', sensor: id, rate: -rate, limit: cooling_max }]
  return []
}

function jumpOf({ ask }: RunFacts, { id }: SensorView, rows: readonly RunRow[]): readonly RunAlarm[] {
  const [before, now] = rows.filter((row) => row.sensor === id).slice(-2)
  if (before === undefined || now === undefined) return []
  const jumps = isJump(before.value, now.value, now.run_ms - before.run_ms, ask.settings.decimals)
  return jumps ? [{ code: 'jump', sensor: id, from: before.value, to: now.value, run_ms: now.run_ms }] : []
}

/** Whether no joint can have changed so much in that time. */
export function isJump(from: number, to: number, after_ms: number, decimals: number): boolean {
  const minutes = Math.max(0.5, after_ms / 60_000)
  return Math.abs(to - from) > JUMP_K_PER_MIN * 10 ** decimals * minutes
}

/** Pads at their setpoint and not clamped on again since. */
export function padsAtSetpoint({ acts }: Pick<RunFacts, 'acts'>): readonly string[] {
  const at = new Set<string>()
  for (const { act, pad, text } of acts) {
    if (act !== 'remark' || pad === '') continue
    const remark = remarkOf(text)
    if (remark === 'setpoint') at.add(pad)
    if (remark === 'reclamped') at.delete(pad)
  }
  return [...at]
}

function contactOf(facts: RunFacts, phase: HeatPhase): readonly RunAlarm[] {
  if (phase !== 'ramp' && phase !== 'soak') return []
  const { ask, sensors, acts } = facts
  // Just pressed on again: the next readings say whether it helped.
  const pressed_ms = acts.filter(({ text }) => remarkOf(text) === 'reclamped').at(-1)?.run_ms ?? -1
  if (sensors.every((one) => (one.run_ms ?? 0) <= pressed_ms)) return []
  const bond = sensors
    .flatMap((one) =>
      one.of === 'bond' && one.value !== undefined ? [{ id: one.id, value: one.value }] : [],
    )
    .sort((a, b) => a.value - b.value)
  const [last, next] = bond
  if (last === undefined || next === undefined || last.value >= ask.settings.lagging_min) return []
  const by = next.value - last.value
  if (by < BEHIND_K * 10 ** ask.settings.decimals) return []
  const pads = padsAtSetpoint(facts)
  return [
    pads.length > 0
      ? { code: 'contact', pads, sensor: last.id, by }
      : { code: 'behind', sensor: last.id, by },
  ]
}

function powerOf({ acts }: RunFacts): readonly RunAlarm[] {
  const last = acts.filter(({ act, text }) => act === 'remark' && remarkOf(text)?.startsWith('power')).at(-1)
  return last !== undefined && remarkOf(last.text) === 'power_gone'
    ? [{ code: 'power', since_ms: last.run_ms }]
    : []
}
