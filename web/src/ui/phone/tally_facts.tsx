// What is known of one position: which rivet, its hole, who was there last, what was measured, its photos.
import type { JSX } from 'preact'
import type { PositionState } from '../../core/state.ts'
import type { Card, Known } from '../../core/views/card.ts'
import { besideDamaged, type Room, roomForLarger } from '../../core/views/hole_neighbours.ts'
import { boardOf, type PositionFacts } from '../../core/views/map_view.ts'
import { hasDamage } from '../../core/views/tally_view.ts'
import { Facts } from '../parts/leaf.tsx'
import { w } from '../words/en.ts'
import { mapWords } from '../words/en_map.ts'
import { listed, quantity, when } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { Thumb } from './photo_slot.tsx'

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
          ...besideRows(card, at),
          ...measured.map((known) => [mapWords.measured, measuredWords(known)] as const),
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

/** Of a damaged hole: what stands beside it, and what a larger rivet would have room for. */
function besideRows(card: Card, at: PositionState): readonly (readonly [string, string])[] {
  const { drawing } = boardOf(card)
  const beside = drawing === undefined ? [] : besideDamaged(card.state.positions, drawing.map)
  const own = beside.find(({ hole }) => hole === at.position)
  const others = beside.filter(({ neighbours }) => neighbours.includes(at.position))
  const room = hasDamage(at) ? roomForLarger(card, at.group) : undefined
  return [
    ...(own ? [[mapWords.besideName, mapWords.besideAgain(listed(own.neighbours))] as const] : []),
    ...others.map(({ hole }) => [mapWords.besideName, mapWords.besideOf(hole)] as const),
    ...(room ? [[mapWords.room, roomWords(room)] as const] : []),
  ]
}

/** Rounded down: a tenth more would not fit. */
function roomWords({ edge_mm, pitch_mm, byEdge_mm, byPitch_mm }: Room): string {
  const mm = (value: number): string => quantity(Math.floor(value * 10 + 1e-9), 1, 'mm')
  const said = [
    ...(edge_mm !== undefined && byEdge_mm !== undefined
      ? [mapWords.roomByEdge(mm(edge_mm), mm(byEdge_mm))]
      : []),
    ...(pitch_mm !== undefined && byPitch_mm !== undefined
      ? [mapWords.roomByPitch(mm(pitch_mm), mm(byPitch_mm))]
      : []),
  ]
  return said.length === 0 ? mapWords.roomUnknown : [...said, mapWords.roomFirst].join('; ')
}

function whoWords(card: Card, known: Known | undefined, now_ms: number): string {
  if (known === undefined) return mapWords.nobody
  return w.common.by(personName(card, known.entry.by), when(known.entry.at_ms, now_ms))
}

function measuredWords({ entry }: Known): string {
  if (entry.kind === 'reading' && 'value' in entry.body) {
    return quantity(entry.body.value, entry.body.decimals, entry.body.unit)
  }
  if (entry.kind !== 'result') return ''
  const values = entry.body.values.map((one) => quantity(one.value, one.decimals, one.unit))
  return [...values, w.card.verdict[entry.body.verdict]].join(', ')
}
