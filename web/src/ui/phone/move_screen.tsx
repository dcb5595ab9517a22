// A photo moved to another slot: recorded there anew with the same bytes, and struck where it was, as one.
import type { JSX } from 'preact'
import type { Entry } from '../../core/entries.ts'
import type { Card } from '../../core/views/card.ts'
import { movedPhoto } from '../../core/views/drafts.ts'
import { type SlotPlace, slotsToMoveTo } from '../../core/views/move_view.ts'
import { mayStrike } from '../../core/views/records_view.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { describe } from '../words/describe.ts'
import { w } from '../words/en.ts'
import { pageWords } from '../words/en_pages.ts'
import { moveWords } from '../words/en_step.ts'
import { capital } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import './move.css'
import { Thumb } from './photo_slot.tsx'
import { go, paths } from './router.ts'

type MoveProps = { card: Card; target: string }

export function MoveScreen({ card, target }: MoveProps): JSX.Element {
  const { record, me } = usePhone()
  const known = card.entries.get(target)
  const entry = known?.entry
  const photo = entry?.kind === 'photo' ? (entry as Entry<'photo'>) : undefined
  const own = photo !== undefined && mayStrike(photo, me())
  const move = async ({ place, ask }: SlotPlace) => {
    if (photo === undefined) return
    const reason = moveWords.reason(`${w.card.step(place.number).toLowerCase()}, ${ask.show || ask.name}`)
    const made = await record(card.job, movedPhoto(photo, { place, slot: ask.id }, reason))
    if (made) go(paths.step(card.job, place.method.id, place.step.id), 'replace')
  }
  return (
    <Frame
      act={`move/${target}`}
      card={card}
      back={paths.card(card.job)}
      foot={<KeyLink href={paths.card(card.job)}>{pageWords.toCard}</KeyLink>}
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {moveWords.title}
        </h1>
        {photo === undefined || known === undefined ? (
          <p>{moveWords.gone}</p>
        ) : (
          <>
            <div class="move-photo">
              <Thumb photo={known} />
            </div>
            <p class="close">{describe(card, photo)}</p>
            {own ? (
              <p class="soft">{moveWords.lead}</p>
            ) : (
              <p>{moveWords.notYours(personName(card, photo.by))}</p>
            )}
          </>
        )}
        {photo && own && <Slots slots={slotsToMoveTo(card, photo.body)} onPick={(slot) => void move(slot)} />}
      </Leaf>
    </Frame>
  )
}

function Slots(props: { slots: readonly SlotPlace[]; onPick: (slot: SlotPlace) => void }): JSX.Element {
  return (
    <div class="keys">
      {props.slots.map((slot) => (
        <Key
          key={`${slot.place.method.id}/${slot.place.step.id}/${slot.ask.id}`}
          class="key-row"
          mark="camera"
          onPress={() => props.onPick(slot)}
          small={`${w.card.step(slot.place.number)}, ${slot.place.step.title}. ${
            slot.taken === 0 ? capital(moveWords.wanted) : capital(moveWords.taken(slot.taken))
          }`}
        >
          {capital(slot.ask.show || slot.ask.name)}
        </Key>
      ))}
    </div>
  )
}
