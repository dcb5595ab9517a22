// What calls the person while the app lies open: sound, vibration and the spoken lines of a run's countdown.
import type { JSX } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import { isOver } from '../../core/views/heat_view.ts'
import { repeatOf } from '../../device/calls.ts'
import type { Call } from '../../device/types.ts'
import { heatWords } from '../words/en_heat.ts'
import { usePhone } from './context.ts'
import { nextWords } from './heat_words.ts'
import { type LiveRun, liveRun } from './run_clock_hook.ts'

const MINUTE = 60_000
const OVERDUE_MS = 30_000

/**
 * What calls at this moment of a countdown that was this long when it was first seen. One of five minutes or less
 * does not begin with the call that five are left: whoever has just read the sensors knows.
 */
export function callFor(remaining_ms: number, began_ms: number): Call | undefined {
  if (remaining_ms <= -OVERDUE_MS) return 'overdue'
  if (remaining_ms <= 0) return 'due'
  if (remaining_ms <= MINUTE) return 'one_min'
  return remaining_ms <= 5 * MINUTE && began_ms > 5 * MINUTE ? 'five_min' : undefined
}

/** Whether it sounds now: at its beginning, then at its own pace. */
export function isCallTime(call: Call, since_ms: number | undefined): boolean {
  const every_ms = repeatOf(call)
  return since_ms === undefined || (every_ms > 0 && since_ms >= every_ms)
}

const SPOKEN_AT: readonly (readonly [number, (act: string) => string])[] = [
  [10 * MINUTE, (act) => heatWords.calls.minutes(10, act)],
  [5 * MINUTE, (act) => heatWords.calls.minutes(5, act)],
  [2 * MINUTE, (act) => heatWords.calls.minutes(2, act)],
  [MINUTE, (act) => heatWords.calls.minutes(1, act)],
  [30_000, (act) => heatWords.calls.seconds(30, act)],
]

/** The line to speak when the countdown passed one of its marks between two beats. */
export function spokenFor(before_ms: number, now_ms: number, act: string): string {
  const passed = SPOKEN_AT.find(([mark]) => before_ms > mark && now_ms <= mark)
  return passed ? passed[1](act) : ''
}

function soonest(runs: readonly LiveRun[]): LiveRun | undefined {
  return [...runs].sort((a, b) => (a.due?.remaining_ms ?? 1e12) - (b.due?.remaining_ms ?? 1e12))[0]
}

/** Which countdown it is: another moment of the same run is another one. */
function countdownOf({ view }: LiveRun): string {
  return `${view.run.run} ${view.next.act} ${view.next.pad} ${view.next.due_ms}`
}

export function Alarms(): JSX.Element {
  const { cards, services } = usePhone()
  const runs = [...cards.value.values()].flatMap((card) =>
    card.hotRuns.map((view) => liveRun(services, view)),
  )
  const first = soonest(runs)
  const over = runs.some((live) => isOver(live.view))
  const [spoken, setSpoken] = useState('')
  const last = useRef<{ call: Call; at_ms: number } | undefined>(undefined)
  const before = useRef(Number.POSITIVE_INFINITY)
  const began = useRef({ to: '', ms: 0 })
  const remaining_ms = first?.due?.remaining_ms
  const { mono_ms } = services.device.clock.state.value.last
  useEffect(() => {
    const to = first === undefined ? '' : countdownOf(first)
    if (began.current.to !== to) began.current = { to, ms: remaining_ms ?? 0 }
    const call = over
      ? 'over_maximum'
      : remaining_ms === undefined
        ? undefined
        : callFor(remaining_ms, began.current.ms)
    if (call === undefined) {
      last.current = undefined
      return
    }
    const since_ms = last.current?.call === call ? mono_ms - last.current.at_ms : undefined
    if (!isCallTime(call, since_ms)) return
    services.device.sound.call(call)
    last.current = { call, at_ms: mono_ms }
  }, [mono_ms, remaining_ms, over, first, services])
  useEffect(() => {
    if (remaining_ms === undefined || first === undefined) return
    const line = spokenFor(before.current, remaining_ms, nextWords(first.view))
    before.current = remaining_ms
    if (line !== '') setSpoken(line)
  }, [remaining_ms, first])
  const due = remaining_ms !== undefined && remaining_ms <= 0 ? Math.floor(-remaining_ms / OVERDUE_MS) : -1
  return (
    <>
      <p class="unseen" aria-live="polite">
        {spoken}
      </p>
      {first && due >= 0 && (
        <p key={due > 6 ? Math.floor(due / 2) + 3 : due} class="unseen" role="alert">
          {heatWords.calls.due(nextWords(first.view))}
        </p>
      )}
    </>
  )
}
