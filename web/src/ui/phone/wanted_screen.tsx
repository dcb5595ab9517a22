// The photographer's page: what is wanted, before what it disappears, and what was taken. Nothing is ticked here.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import {
  takenOf,
  type WantedGroup,
  type WantedSlot,
  wantedCount,
  wantedOf,
} from '../../core/views/photo_view.ts'
import { KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { describe } from '../words/describe.ts'
import { w } from '../words/en.ts'
import { capital, clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { Frame } from './frame.tsx'
import { PhotoSlot, Thumb } from './photo_slot.tsx'
import { paths } from './router.ts'
import { RunBand } from './while_hot.tsx'

export function WantedScreen({ card, reader }: { card: Card; reader: boolean }): JSX.Element {
  const groups = wantedOf(card)
  const n = wantedCount(groups)
  const first = groups[0]?.slots[0]
  return (
    <Frame
      act={`${card.job}/wanted`}
      card={card}
      back={reader ? paths.jobs : paths.card(card.job)}
      foot={
        <>
          {first && (
            <KeyLink tone="main" mark="camera" href={slotPath(card, first)}>
              {w.phone.wanted.first}
              <small>{capital(first.ask.name)}</small>
            </KeyLink>
          )}
          <KeyLink href={paths.photo(card.job)}>{w.card.slot.loose}</KeyLink>
          <KeyLink href={paths.card(card.job)}>{w.phone.wanted.card}</KeyLink>
        </>
      }
    >
      <RunBand card={card} />
      <Leaf plain>
        <h1 class="act" tabIndex={-1}>
          {n === 0 ? w.phone.wanted.none : w.phone.wanted.title(n)}
        </h1>
        {n === 0 && <p>{w.phone.wanted.noneNext}</p>}
        {groups.map((group) => (
          <Group key={group.before?.number ?? 0} card={card} group={group} />
        ))}
        <Taken card={card} />
      </Leaf>
    </Frame>
  )
}

function slotPath(card: Card, { place, ask }: WantedSlot): string {
  return paths.ask(card.job, place.method.id, place.step.id, ask.id)
}

function Group({ card, group }: { card: Card; group: WantedGroup }): JSX.Element {
  const { before } = group
  return (
    <section class="keys">
      <h2>
        {before
          ? w.phone.wanted.before(`${w.card.step(before.number).toLowerCase()}, ${before.step.title}`)
          : w.phone.wanted.whenYouCan}
      </h2>
      {group.slots.map((slot) => (
        <PhotoSlot
          key={`${slot.place.number}/${slot.ask.id}`}
          ask={slot.ask}
          photos={[]}
          href={slotPath(card, slot)}
          line={w.card.step(slot.place.number)}
        />
      ))}
    </section>
  )
}

function Taken({ card }: { card: Card }): JSX.Element | null {
  const taken = takenOf(card)
  if (taken.length === 0) return null
  return (
    <section>
      <h2>{w.phone.wanted.taken(taken.length)}</h2>
      <ul class="taken">
        {taken.map((photo) => (
          <li key={photo.entry.hash}>
            <Thumb photo={photo} />
            <span>{describe(card, photo.entry)}</span>
            <StateWord state={photo.where} />
            <span class="label soft">
              {w.common.by(personName(card, photo.entry.by), clockTime(photo.entry.at_ms))}
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}
