/**
 * A clock of a bond against its window: a step must start and end inside it. Model "clock-1".
 *
 * Ends of the window are inside. The twin of the server's `bonding/clocks.py`, here in milliseconds.
 */

/** After the start: not before the minimum (flash-off), not after the maximum. */
export type Window = { readonly min_ms: number; readonly max_ms: number }
export type ClockReading = {
  readonly stand: 'too_early' | 'open' | 'over'
  readonly wait_ms: number
  readonly left_ms: number
  readonly startsOutside: boolean
  readonly endsOutside: boolean
  readonly overBy_ms: number
}

/** A step of that length that would start now. */
export function readClock({ min_ms, max_ms }: Window, since_ms: number, step_ms = 0): ClockReading {
  const end_ms = since_ms + step_ms
  const [isEarly, isOver] = [since_ms < min_ms, since_ms > max_ms]
  return {
    stand: isEarly ? 'too_early' : isOver ? 'over' : 'open',
    wait_ms: Math.max(0, min_ms - since_ms),
    left_ms: Math.max(0, max_ms - since_ms),
    startsOutside: isEarly || isOver,
    endsOutside: end_ms > max_ms,
    overBy_ms: Math.max(0, end_ms - max_ms),
  }
}
