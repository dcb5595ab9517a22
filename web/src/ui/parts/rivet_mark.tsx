// The pictures of a rivet's states and marks, fetched with the pages that show rivets.
import type { JSX } from 'preact'
import { type Drawing, disc, Shape, TICK_CUT } from './mark.tsx'

const RIVETS = {
  untouched: { line: disc(9) },
  hole_checked: { line: `${disc(9)}M12 3v18M3 12h18` },
  rivet_seated: { line: disc(9), fill: 'M3 12a9 9 0 0 0 18 0z' },
  set: { fill: disc(10) },
  set_and_checked: { fill: disc(10) + TICK_CUT },
  in_place: { fill: disc(10) + disc(6.4) + disc(3.2) },
  mandrel_out: { fill: disc(10) + disc(4) },
  head_drilled: {
    thick:
      'M8.1 5.5A7.6 7.6 0 0 1 15.9 5.5M18.5 8.1A7.6 7.6 0 0 1 18.5 15.9M15.9 18.5A7.6 7.6 0 0 1 8.1 18.5M5.5 15.9A7.6 7.6 0 0 1 5.5 8.1',
  },
  head_off: { line: disc(9), fill: disc(4.6) },
  shank_out: { line: disc(9), thick: 'M7.5 12.3l3.2 3.2 5.8-6.4' },
  damaged_hole: {
    line: 'M2.5 2.5h19v19h-19zM15 9.5l4-4-1 4 2.5.5-3.6 1.4A5.4 5.4 0 1 1 11 8.6l1-3.6 1.6 3z',
  },
  lost: { line: 'M2.5 2.5h19v19h-19zM2.5 8H9M15 8h6.5M9 5.5V8M15 5.5V8', fill: 'M11 11.5l4 1-1.6 6-4-1z' },
} as const satisfies Record<string, Drawing>

export type RivetName = keyof typeof RIVETS

/** The picture of a rivet's place in the count: its state, or the rivet mark that outranks it. */
export function RivetMark({ name }: { name: RivetName }): JSX.Element {
  return <Shape drawing={RIVETS[name]} class="mark rivet" />
}

export function isRivetName(name: string): name is RivetName {
  return name in RIVETS
}
