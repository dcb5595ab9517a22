/** What each call sounds and shakes like, and how often it comes again. */
import type { Call } from './types.ts'

/** Frequencies in Hz, each note `note_ms` long; no notes is silence. */
export type CallShape = {
  readonly notes: readonly number[]
  readonly note_ms: number
  readonly gain: number
  readonly shake_ms: readonly number[]
  /** 0: once. */
  readonly every_ms: number
}

const NOTE_MS = 180
const [QUIET, FULL] = [0.6, 1]

export const CALLS: { readonly [C in Call]: CallShape } = {
  recorded: { notes: [], note_ms: 0, gain: 0, shake_ms: [30], every_ms: 0 },
  held: { notes: [], note_ms: 0, gain: 0, shake_ms: [60, 60, 60], every_ms: 0 },
  five_min: { notes: [880], note_ms: NOTE_MS, gain: QUIET, shake_ms: [80], every_ms: 0 },
  one_min: { notes: [880, 1175], note_ms: NOTE_MS, gain: QUIET, shake_ms: [120, 80, 120], every_ms: 20_000 },
  due: {
    notes: [880, 1175, 1568],
    note_ms: NOTE_MS,
    gain: QUIET,
    shake_ms: [400, 150, 400],
    every_ms: 2_000,
  },
  overdue: {
    notes: [880, 1175, 1568],
    note_ms: NOTE_MS,
    gain: FULL,
    shake_ms: [600, 150, 600],
    every_ms: 1_000,
  },
  over_maximum: {
    notes: [1568, 784],
    note_ms: NOTE_MS,
    gain: FULL,
    shake_ms: [200, 100, 200, 100, 200, 100, 200],
    every_ms: 1_000,
  },
}

/** After how many ms a call is to be made again while its cause lasts; 0 is never. */
export function repeatOf(call: Call): number {
  return CALLS[call].every_ms
}
