// What a step asks for: what is open as keys, what is made as print.
import type { JSX } from 'preact'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { tick } from '../../core/views/tick_draft.ts'
import { Key } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { capital } from '../words/format.ts'
import { askHint } from './ask_words.ts'
import { usePhone } from './context.ts'
import { laterPart } from './later_part.tsx'
import { PhotoSlot } from './photo_slot.tsx'
import { paths } from './router.ts'

const Made = laterPart(async () => (await import('./made.tsx')).Made)

type ListProps = { card: Card; place: StepPlace; asks: readonly AskView[]; reader: boolean }

export function AskList({ card, place, asks, reader }: ListProps): JSX.Element | null {
  if (asks.length === 0) return null
  const plain = asks.filter((view) => view.ask.kind !== 'photo')
  return (
    <div class="asks">
      {plain.map((view) => (
        <AskRow key={view.ask.id} card={card} place={place} view={view} reader={reader} />
      ))}
      {asks.map((view) =>
        view.ask.kind === 'photo' ? (
          <PhotoSlot
            key={view.ask.id}
            place={place}
            ask={view.ask}
            photos={view.photos}
            href={paths.ask(card.job, place.method.id, place.step.id, view.ask.id)}
          />
        ) : null,
      )}
    </div>
  )
}

type RowProps = { card: Card; place: StepPlace; view: AskView; reader: boolean }

function AskRow({ card, place, view, reader }: RowProps): JSX.Element {
  const open = view.open && !reader
  const { kind } = view.ask
  const made =
    !view.open ||
    reader ||
    kind === 'countersign' ||
    kind === 'tally' ||
    view.lots.length > 0 ||
    hasValue(view)
  return (
    <div class="ask">
      {open && <OpenAsk card={card} place={place} view={view} />}
      {made && <Made card={card} place={place} view={view} reader={reader} />}
    </div>
  )
}

function hasValue(view: AskView): boolean {
  return view.values.some((value) => value.known !== undefined || value.sentBack !== '')
}

function OpenAsk({ card, place, view }: Omit<RowProps, 'reader'>): JSX.Element {
  const { record } = usePhone()
  const { ask } = view
  const href = paths.ask(card.job, place.method.id, place.step.id, ask.id)
  if (ask.kind === 'tick') {
    return (
      <Key
        id={`check-${ask.id}`}
        class="key-row"
        mark="open"
        onPress={() => void record(card.job, [tick(card, place, ask.id)])}
      >
        {capital(ask.name)}
      </Key>
    )
  }
  return (
    <a class="key key-plain key-row" href={href}>
      <Mark name="open" />
      <span>
        {capital(ask.name)}
        <small>{askHint(view)}</small>
      </span>
      <Mark name="onward" />
    </a>
  )
}
