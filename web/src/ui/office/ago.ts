// How long ago something was heard, in words.
import { daysBetween, duration } from '../words/format.ts'
import { o } from '../words/office_en.ts'

const JUST_NOW_MS = 10_000
const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS
const HOURS_ALONE_FROM = 3

/** Seconds, then whole minutes, then whole hours, then days. */
export function ago(at_ms: number, now_ms: number): string {
  if (at_ms === 0) return o.board.never
  const days = daysBetween(at_ms, now_ms)
  if (days > 1) return o.board.ago(`${days} days`)
  const past_ms = now_ms - at_ms
  if (past_ms < JUST_NOW_MS) return o.board.justNow
  const hours = Math.floor(past_ms / HOUR_MS)
  if (hours >= HOURS_ALONE_FROM) return o.board.ago(o.board.hours(hours))
  const whole_ms = past_ms < MINUTE_MS ? past_ms : Math.floor(past_ms / MINUTE_MS) * MINUTE_MS
  return o.board.ago(duration(whole_ms))
}
