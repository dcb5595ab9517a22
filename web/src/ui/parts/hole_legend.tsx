// How many holes are used, go up a size, wait for the maker: the signs of the map with their words.
import type { JSX } from 'preact'
import type { HoleView, HoleWord } from '../../core/views/holes_view.ts'
import { holeWords } from '../words/en_holes.ts'
import { HoleMark } from './hole_mark.tsx'

const ORDER: readonly HoleWord[] = ['used', 'opened', 'larger', 'to_maker', 'not_read']

export function HoleLegend({ holes }: { holes: readonly HoleView[] }): JSX.Element {
  const counted = ORDER.map((word) => ({ word, n: holes.filter((one) => one.word === word).length }))
  return (
    <section class="hole-legend" aria-label={holeWords.title}>
      <h2 class="label">{holeWords.title}</h2>
      <ul>
        {counted
          .filter(({ n }) => n > 0)
          .map(({ word, n }) => (
            <li key={word} class={word === 'to_maker' || word === 'larger' ? 'in-stop' : ''}>
              <HoleMark word={word} />
              {holeWords.legend(n, word)}
            </li>
          ))}
      </ul>
    </section>
  )
}
