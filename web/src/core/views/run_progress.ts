/** How far a run is through its silhouette: ramp up, soak level, release in stages, cool-down. */
import type { RunView } from './heat_view.ts'

/** Where each part ends in the silhouette, as a share of its length. */
export const PART_ENDS = { ramp: 0.34, soak: 0.58, release: 0.82, cooling: 1 } as const

/** By what has happened, not by time alone: a ramp that takes longer waits at its end. */
export function progressOf(view: RunView, elapsed_ms: number): number {
  const { run, ask, phase } = view
  const { ramp_s, soak_s, release } = ask.settings
  const within = (from: number, to: number, share: number) =>
    from + (to - from) * Math.min(1, Math.max(0, share))
  switch (phase) {
    case 'ramp':
      return within(0, PART_ENDS.ramp, elapsed_ms / (ramp_s * 1000))
    case 'soak':
      return within(PART_ENDS.ramp, PART_ENDS.soak, run.soak_ms / Math.max(1, soak_s * 1000))
    case 'workable':
      return PART_ENDS.soak
    case 'release': {
      const acts = new Set(run.turned_down).size + new Set(run.lifted).size
      return within(PART_ENDS.soak, PART_ENDS.release, acts / Math.max(1, 2 * release.length))
    }
    case 'aborted':
    case 'cooling':
      return within(PART_ENDS.release, PART_ENDS.cooling, 0.1)
    case 'over':
      return 1
  }
}
