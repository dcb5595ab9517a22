// The photographer's page: what is wanted before it disappears, what was missed, and what was taken.
import type { JSX } from 'preact'
import { askOf, bodyOf, type Card, type Known, placeOf, type StepPlace } from '../../core/views/card.ts'
import {
  takenOf,
  type WantedGroup,
  type WantedSlot,
  wantedCount,
  wantedViewOf,
} from '../../core/views/photo_view.ts'
import { KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { describe } from '../words/describe.ts'
import { w } from '../words/en.ts'
import { photoWords } from '../words/en_photo.ts'
import { capital, clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { Frame } from './frame.tsx'
import './photo.css'
import { PhotoSlot, PhotoWhere, Thumb } from './photo_slot.tsx'
import { paths } from './router.ts'
import { sideNamed } from './side_named.ts'
import { useStillHere } from './still_here.ts'
import { RunBand } from './while_hot.tsx'

const words = photoWords.wanted

export function WantedScreen({ card, reader }: { card: Card; reader: boolean }): JSX.Element {
  const { now, missed, told, later } = wantedViewOf(card)
  const n = wantedCount(now)
  const first = now[0]?.slots[0]
  return (
    <Frame
      act={`${card.job}/wanted`}
      card={card}
      back={reader ? paths.jobs : paths.card(card.job)}
      foot={
        <>
          {first && (
            <KeyLink tone="main" mark="camera" href={slotPath(card, first)}>
              {words.first}
              <small>{w.card.step(first.place.number)}</small>
            </KeyLink>
          )}
          <KeyLink href={paths.photo(card.job)}>{w.card.slot.loose}</KeyLink>
          <KeyLink href={paths.card(card.job)}>{words.card}</KeyLink>
        </>
      }
    >
      <RunBand card={card} />
      <Leaf plain>
        <h1 class="act" tabIndex={-1}>
          {n === 0 ? words.none : words.title(n)}
        </h1>
        {n === 0 && <p>{words.noneNext}</p>}
        {now.map((group) => (
          <Group key={group.before?.number ?? 0} card={card} group={group} />
        ))}
        <Missed card={card} missed={missed} told={told.length} />
        {later.length > 0 && (
          <details class="wanted-later">
            <summary>{words.later(wantedCount(later))}</summary>
            <p class="soft">{words.laterWhy}</p>
            {later.map((group) => (
              <Group key={group.before?.number ?? 0} card={card} group={group} />
            ))}
          </details>
        )}
        <Taken card={card} />
      </Leaf>
    </Frame>
  )
}

function slotPath(card: Card, { place, ask }: WantedSlot): string {
  return paths.ask(card.job, place.method.id, place.step.id, ask.id)
}

function stepWords({ number, step }: StepPlace): string {
  return `${w.card.step(number).toLowerCase()}, ${step.title}`
}

function Group({ card, group }: { card: Card; group: WantedGroup }): JSX.Element {
  const { before, steps_left } = group
  return (
    <section class="keys">
      <div>
        <h2>{before ? words.before(stepWords(before)) : words.whenYouCan}</h2>
        {before && (
          <p class={steps_left === 0 ? 'wanted-next' : 'soft'}>
            {steps_left === 0 ? words.nextNow : words.stepsLeft(steps_left)}
          </p>
        )}
      </div>
      {group.slots.map((slot) => (
        <Slot key={`${slot.place.number}/${slot.ask.id}`} card={card} slot={slot} />
      ))}
    </section>
  )
}

function Slot({ card, slot }: { card: Card; slot: WantedSlot }): JSX.Element {
  const side = sideNamed(slot.ask)
  const gone = slot.gone.at(-1)
  return (
    <PhotoSlot place={slot.place} ask={slot.ask} photos={[]} href={slotPath(card, slot)} quiet>
      <small>
        {side && <b class="side">{photoWords.side[side]}</b>} {w.card.step(slot.place.number)}
        {slot.missed && `, ${words.missedBy(w.card.step(slot.missed.number).toLowerCase())}`}
      </small>
      {gone && <small class="in-stop">{photoWords.gone[gone.by](gone.why)}</small>}
    </PhotoSlot>
  )
}

/** What the slot asked to show; a photo without a slot by its own words. */
function shownWords(card: Card, { entry }: Known): string {
  const body = bodyOf(card, entry.hash, 'photo')
  const place = body && placeOf(card, body.method, body.step)
  const ask = place && askOf(place, body.slot)
  return capital((ask?.kind === 'photo' && ask.show) || describe(card, entry))
}

type MissedProps = { card: Card; missed: readonly WantedSlot[]; told: number }

function Missed({ card, missed, told }: MissedProps): JSX.Element | null {
  if (missed.length + told === 0) return null
  return (
    <section class="keys">
      <h2>{words.missed}</h2>
      {missed.map((slot) => (
        <Slot key={`${slot.place.number}/${slot.ask.id}`} card={card} slot={slot} />
      ))}
      {told > 0 && <p class="soft">{words.told(told)}</p>}
    </section>
  )
}

function Taken({ card }: { card: Card }): JSX.Element | null {
  const taken = takenOf(card)
  const here = useStillHere()
  if (taken.length === 0) return null
  return (
    <section>
      <h2>{words.taken(taken.length)}</h2>
      {here.photos > 0 && <p>{words.here(here.photos, here.bytes)}</p>}
      <ul class="taken">
        {taken.map((photo) => (
          <li key={photo.entry.hash}>
            <Thumb photo={photo} />
            <span>{shownWords(card, photo)}</span>
            <PhotoWhere photo={photo} />
            <span class="label soft">
              {w.common.by(personName(card, photo.entry.by), clockTime(photo.entry.at_ms))}
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}
