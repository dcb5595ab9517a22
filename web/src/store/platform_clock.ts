/** The bare clocks of the platform, and the name of this page load. */
import type { ClockReading } from './types.ts'

/** What the monotonic clock of this page counts from. */
export const PAGE_LOAD: string = crypto.randomUUID()

export function platformReading(): ClockReading {
  return { at_ms: Math.floor(Date.now()), mono_ms: Math.floor(performance.now()), load: PAGE_LOAD }
}
