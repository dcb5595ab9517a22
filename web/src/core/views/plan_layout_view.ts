/** A planned zone's layout as distances that a hand can measure: from its corner, and from the nearest pad's edge. */
import type { BoxMm, PlanLayout } from '../live/response_set.ts'

export type Placed = {
  readonly id: string
  readonly x_mm: number
  readonly y_mm: number
  /** The nearest pad, and how far inside its edge (positive) or beside it (negative); absent without pads. */
  readonly pad?: { readonly id: string; readonly inside_mm: number }
}

export function sensorsPlaced({ sensors, pads }: PlanLayout): readonly Placed[] {
  return sensors.map(({ id, at_mm: [x_mm, y_mm] }) => {
    const [pad] = pads
      .map((one) => ({ id: one.id, inside_mm: insideMm(one.box_mm, x_mm, y_mm) }))
      .sort((a, b) => b.inside_mm - a.inside_mm)
    return { id, x_mm, y_mm, ...(pad === undefined ? {} : { pad }) }
  })
}

/** To the nearest edge from within; negative from without. */
function insideMm([x0, y0, x1, y1]: BoxMm, x: number, y: number): number {
  const [across, up] = [Math.min(x - x0, x1 - x), Math.min(y - y0, y1 - y)]
  if (across >= 0 && up >= 0) return Math.min(across, up)
  return -Math.hypot(Math.max(-across, 0), Math.max(-up, 0))
}

/** Widths of the pads and the gaps between them, from the zone's left end on. */
export function stretchesOf({
  pads,
  size_mm: [width],
}: PlanLayout): readonly { readonly from: number; readonly to: number }[] {
  const ends = pads.flatMap(({ box_mm: [x0, , x1] }) => [x0, x1])
  const marks = [...new Set([0, ...ends, width])]
    .filter((one) => one >= 0 && one <= width)
    .sort((a, b) => a - b)
  return marks.slice(1).map((to, i) => ({ from: marks[i] ?? 0, to }))
}
