// What a hole allows, as a small diamond beside its rivet: its sign says it without colour.
import type { JSX } from 'preact'
import type { HoleWord } from '../../core/views/holes_view.ts'
import { type Drawing, Shape } from './mark.tsx'

const HOLES = {
  hole_used: { fill: 'M12 0 24 12 12 24 0 12zM7 8.6h10v2.5H7zM7 12.9h10v2.5H7z' },
  hole_opened: {
    fill: 'M12 0 24 12 12 24 0 12zM10.7 6.5h2.6v4.2h4.2v2.6h-4.2v4.2h-2.6v-4.2H6.5v-2.6h4.2z',
  },
  hole_larger: { fill: 'M12 0 24 12 12 24 0 12zM12 4.6l5.6 6.4h-4v7.4h-3.2V11h-4z' },
  hole_to_maker: {
    fill: 'M12 0 24 12 12 24 0 12zM8 9.4a4 4 0 1 1 6.1 3.4l-.8.6v1.2h-2.6v-2.6l1.9-1.3a1.4 1.4 0 1 0-2-1.3zM10.7 16.2h2.6v2.6h-2.6z',
  },
  hole_not_read: { line: 'M12 2 22 12 12 22 2 12z' },
} as const satisfies Record<string, Drawing>

export function HoleMark({ word }: { word: HoleWord }): JSX.Element {
  return <Shape drawing={HOLES[`hole_${word}`]} class={`mark hole-mark hole-${word}`} />
}
