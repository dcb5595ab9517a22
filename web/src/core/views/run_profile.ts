/** How far a heat run is along its silhouette: ramp, soak, release, cool-down, from what was recorded. */

import { PART_ENDS } from './run_progress.ts'

export type RunSoFar = {
  readonly on_ms: number
  readonly moments: readonly string[]
  readonly aborted: boolean
  readonly soak_ms: number
  readonly soak_s: number
  readonly ramp_s: number
  readonly pads: number
  readonly pads_down: number
}

export type RunPartName = 'ramp' | 'soak' | 'release' | 'cool_down'

/** `share` is how much of the whole silhouette is filled, from 0 to 1; it is no scale of time. */
export type RunProfile = { readonly part: RunPartName; readonly share: number }

/** Where each part begins on the silhouette, and its width. */
const PARTS: { readonly [P in RunPartName]: readonly [from: number, wide: number] } = {
  ramp: [0, PART_ENDS.ramp],
  soak: [PART_ENDS.ramp, PART_ENDS.soak - PART_ENDS.ramp],
  release: [PART_ENDS.soak, PART_ENDS.release - PART_ENDS.soak],
  cool_down: [PART_ENDS.release, PART_ENDS.cooling - PART_ENDS.release],
}

const within = (part: number, whole: number): number =>
  whole > 0 ? Math.min(1, Math.max(0, part / whole)) : 0

function partOf(run: RunSoFar): RunPartName {
  const reached = new Set(run.moments)
  if (run.aborted || reached.has('off') || reached.has('lifted')) return 'cool_down'
  if (run.pads_down > 0) return 'release'
  if (reached.has('soaked') || reached.has('workable') || run.soak_ms > 0) return 'soak'
  return 'ramp'
}

function alongOf(run: RunSoFar, part: RunPartName, now_ms: number): number {
  if (part === 'ramp') return within(now_ms - run.on_ms, run.ramp_s * 1000)
  if (part === 'release') return within(run.pads_down, run.pads)
  if (part === 'cool_down') return run.moments.includes('cold') ? 1 : 0.5
  return run.moments.includes('soaked') ? 1 : within(run.soak_ms, run.soak_s * 1000)
}

export function runProfile(run: RunSoFar, now_ms: number): RunProfile {
  const part = partOf(run)
  const [from, wide] = PARTS[part]
  return { part, share: from + wide * alongOf(run, part, now_ms) }
}
