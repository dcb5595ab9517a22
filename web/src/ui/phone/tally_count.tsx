// The count: how many are to account for, and how many stand in each place.
import type { JSX } from 'preact'
import type { TallyView } from '../../core/views/tally_view.ts'
import { RivetMark } from '../parts/mark.tsx'
import { askWords } from '../words/en_asks.ts'
import { ladder, marks } from '../words/en_kinds.ts'

export function TallyCount({ tally }: { tally: TallyView }): JSX.Element {
  return (
    <section class="tally" aria-live="polite">
      <p class="tally-left">
        <span class="num">{tally.left}</span>
        <span>
          <strong>{askWords.tally.of(tally.positions.length)}</strong> {askWords.tally.toAccount}
        </span>
      </p>
      <ul class="tally-list">
        {tally.counts.map(({ place, n }) => (
          <li key={place} class={place === 'lost' ? 'in-stop' : place === 'shank_out' ? 'in-bay' : ''}>
            <span class="num">{n}</span>
            <RivetMark name={place} />
            <span>{ladder[place]}</span>
          </li>
        ))}
        {tally.damaged > 0 && (
          <li class="in-stop">
            <span class="num">{tally.damaged}</span>
            <RivetMark name="damaged_hole" />
            <span>{marks.damaged_hole}</span>
          </li>
        )}
      </ul>
    </section>
  )
}
