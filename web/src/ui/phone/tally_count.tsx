// The count: how many are to account for, and how many stand in each place.
import type { JSX } from 'preact'
import type { TallyView } from '../../core/views/tally_view.ts'
import { RivetMark } from '../parts/rivet_mark.tsx'
import { ladder, marks } from '../words/en_kinds.ts'
import { mapWords } from '../words/en_map.ts'

/** Lines of the count, for who must know beforehand how high it is. */
export function countLines(tally: TallyView): number {
  return tally.counts.length + (tally.damaged > 0 ? 1 : 0)
}

type CountProps = { tally: TallyView; name: string; whole?: string | undefined }

export function TallyCount({ tally, name, whole }: CountProps): JSX.Element {
  return (
    <section class="tally" aria-live="polite" aria-label={name}>
      <p class="tally-left">
        <span class="num">{tally.left}</span>
        <span>
          <strong>{mapWords.of(tally.positions.length)}</strong> {mapWords.toAccount}
        </span>
      </p>
      <ul class="tally-list">
        {tally.counts.map(({ place, n }) => (
          <li key={place} class={toneOf(place)}>
            <span class="num">{n}</span>
            <RivetMark name={place} />
            <span>{ladder[place]}</span>
          </li>
        ))}
        {tally.damaged > 0 && (
          <li class="in-stop tally-mark">
            <span class="num">{tally.damaged}</span>
            <RivetMark name="damaged_hole" />
            <span>{marks.damaged_hole}</span>
          </li>
        )}
      </ul>
      {whole && <p class="label soft">{whole}</p>}
    </section>
  )
}

function toneOf(place: TallyView['counts'][number]['place']): string {
  if (place === 'lost') return 'in-stop'
  return place === 'shank_out' || place === 'set_and_checked' ? 'in-bay' : ''
}
