// The photos that a slot has: where each is, and its two keys.
import type { JSX } from 'preact'
import type { Card, Known } from '../../core/views/card.ts'
import { w } from '../words/en.ts'
import { strikeWords } from '../words/en_step.ts'
import { clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { PhotoWhere, Thumb } from './photo_slot.tsx'
import { paths } from './router.ts'

export function TakenList({ card, photos }: { card: Card; photos: readonly Known[] }): JSX.Element | null {
  if (photos.length === 0) return null
  return (
    <ul class="taken">
      {photos.map((photo) => (
        <li key={photo.entry.hash}>
          <Thumb photo={photo} />
          <PhotoWhere photo={photo} />
          <span class="label soft">
            {w.common.by(personName(card, photo.entry.by), clockTime(photo.entry.at_ms))}
          </span>
          <span class="taken-keys">
            <a class="key key-plain" href={paths.move(card.job, photo.entry.hash)}>
              {w.card.slot.move}
            </a>
            <a class="key key-plain" href={paths.strike(card.job, photo.entry.hash)}>
              {strikeWords.strike}
            </a>
          </span>
        </li>
      ))}
    </ul>
  )
}
