// What is known of one position: which rivet, its hole, who was there last, what was measured, its photos.
import type { JSX } from 'preact'
import type { PositionState } from '../../core/state.ts'
import { askOf, type Card, type Known, placeOf } from '../../core/views/card.ts'
import type { PositionFacts } from '../../core/views/map_view.ts'
import { hasDamage } from '../../core/views/tally_view.ts'
import { Facts } from '../parts/leaf.tsx'
import { w } from '../words/en.ts'
import { mapWords } from '../words/en_map.ts'
import { capital, quantity, when } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { Thumb } from './photo_slot.tsx'
import { decisionRows, holeRows } from './tally_holes.ts'

type LinesProps = { card: Card; at: PositionState; facts: PositionFacts }

export function PositionLines({ card, at, facts }: LinesProps): JSX.Element {
  const now_ms = usePhone().services.device.clock.now().at_ms
  const { last, photos, measured, marks } = facts
  const found = marks.filter((mark) => mark.mark !== 'damaged_hole')
  return (
    <>
      <Facts
        rows={[
          [mapWords.rivet, at.generation === 0 ? mapWords.onTheCar : mapWords.nth(at.generation)],
          [mapWords.hole, hasDamage(at) ? mapWords.holeDamaged : mapWords.holeNothing],
          ...decisionRows(card, at),
          ...measured.map((known) => [measuredName(card, known), measuredWords(known)] as const),
          ...holeRows(card, at),
          ...found.map(
            (mark) =>
              [mapWords.markWords(mark.mark, mark.piece), whoWords(card, mark.known, now_ms)] as const,
          ),
          [mapWords.last, whoWords(card, last, now_ms)],
        ]}
      />
      <p class="label soft">{photos.length > 0 ? mapWords.photos(photos.length) : mapWords.noPhotos}</p>
      {photos.length > 0 && (
        <ul class="map-photos">
          {photos.map((photo) => (
            <li key={photo.entry.hash}>
              <Thumb photo={photo} />
            </li>
          ))}
        </ul>
      )}
    </>
  )
}

function whoWords(card: Card, known: Known | undefined, now_ms: number): string {
  if (known === undefined) return mapWords.nobody
  return w.common.by(personName(card, known.entry.by), when(known.entry.at_ms, now_ms))
}

/** As its ask is named: two diameters of a hole are told apart. */
function measuredName(card: Card, { entry }: Known): string {
  if (entry.kind !== 'reading' || 'run' in entry.body) return mapWords.measured
  const place = placeOf(card, entry.body.method, entry.body.step)
  return capital((place && askOf(place, entry.body.ask)?.name) || mapWords.measured)
}

function measuredWords({ entry }: Known): string {
  if (entry.kind === 'reading' && 'value' in entry.body) {
    return quantity(entry.body.value, entry.body.decimals, entry.body.unit)
  }
  if (entry.kind !== 'result') return ''
  const values = entry.body.values.map((one) => quantity(one.value, one.decimals, one.unit))
  return [...values, w.card.verdict[entry.body.verdict]].join(', ')
}
