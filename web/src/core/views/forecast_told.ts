/** What the page says of a run's forecast: one statement, with its times on the run clock. */
import type { LooksLike } from '../live/fit.ts'
import type { Card } from './card.ts'
import { msOf } from './forecast_view.ts'
import type { RunView } from './heat_view.ts'

/** Whole minutes from now on: the middle rounded, the band outwards; undefined for never. */
export type Minutes = { readonly left: number; readonly from: number; readonly until: number | undefined }

export type Told =
  /** `unread`: the plans of this card are still being read. `newer`: of a form that this app does not read. */
  | { readonly is: 'unread' | 'none' | 'not_here' | 'newer' | 'never' }
  | { readonly is: 'planned' | 'in'; readonly minutes: Minutes; readonly times: Times }
  | { readonly is: 'now'; readonly times: Times }
  | { readonly is: 'power'; readonly gone_ms: number }
  | {
      readonly is: 'looks'
      readonly looks_like: Exclude<LooksLike, ''>
      readonly names: string
      /** When the sensor that came off is left out. */
      readonly minutes: Minutes | undefined
    }

/** On the run clock; `window_ms` is until when the plan keeps the whole zone workable. */
export type Times = {
  readonly workable_ms: number
  readonly from_ms: number
  readonly until_ms: number | undefined
  readonly window_ms: number | undefined
  readonly pads_on_ms: number | undefined
}

export function toldOf(card: Card, view: RunView, elapsed_ms: number): Told {
  const { plan, forecast } = view
  if (plan === undefined) return { is: card.plans === undefined ? 'unread' : 'none' }
  if (plan.set === undefined || forecast === undefined) return { is: plan.here ? 'newer' : 'not_here' }
  if (forecast.power_gone_ms !== undefined) return { is: 'power', gone_ms: forecast.power_gone_ms }
  const { looks_like, names } = forecast.fit
  const times = timesOf(view)
  if (looks_like !== '') {
    const minutes = looks_like === 'sensor_off' && times ? minutesOf(times, elapsed_ms) : undefined
    return { is: 'looks', looks_like, names, minutes }
  }
  if (times === undefined) return { is: 'never' }
  if (forecast.counted === 0) return { is: 'planned', minutes: minutesOf(times, 0), times }
  return times.workable_ms <= elapsed_ms
    ? { is: 'now', times }
    : { is: 'in', minutes: minutesOf(times, elapsed_ms), times }
}

/** The plan's own times move with the forecast: what becomes workable later stays on later. */
function timesOf({ plan, forecast }: RunView): Times | undefined {
  const workable_ms = msOf(forecast?.fit.workable_s ?? null)
  const answer = plan?.set?.answer
  if (forecast === undefined || answer === undefined || workable_ms === undefined) return undefined
  const later_ms = answer.workable_s === null ? undefined : workable_ms - answer.workable_s * 1000
  const moved = (at_s: number | null) => {
    const at_ms = msOf(at_s)
    return at_ms === undefined || later_ms === undefined ? undefined : at_ms + later_ms
  }
  return {
    workable_ms,
    from_ms: msOf(forecast.fit.from_s) ?? 0,
    until_ms: msOf(forecast.fit.until_s),
    window_ms: moved(answer.window_until_s),
    pads_on_ms: moved(answer.heat_until_s),
  }
}

const MINUTE_MS = 60_000

function minutesOf({ workable_ms, from_ms, until_ms }: Times, now_ms: number): Minutes {
  return {
    left: Math.round((workable_ms - now_ms) / MINUTE_MS),
    from: Math.max(0, Math.floor((from_ms - now_ms) / MINUTE_MS)),
    until: until_ms === undefined ? undefined : Math.ceil((until_ms - now_ms) / MINUTE_MS),
  }
}
