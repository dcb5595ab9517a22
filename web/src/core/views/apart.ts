/** How far two entries lie apart: by the server's clock where it heard both, else as their phones had it. */
import type { Known } from './card.ts'

export function apart(first: Known, second: Known): number {
  const wall_ms = second.entry.at_ms - first.entry.at_ms
  if (first.offset_ms === undefined || second.offset_ms === undefined) return wall_ms
  return wall_ms + second.offset_ms - first.offset_ms
}
