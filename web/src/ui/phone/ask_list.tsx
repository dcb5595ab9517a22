// What a step asks for: what is open as keys, what is made as print.
import type { JSX } from 'preact'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { tick } from '../../core/views/drafts.ts'
import { Key } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { capital, clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { askAnswers, askHint, askVerb } from './ask_words.ts'
import { usePhone } from './context.ts'
import { PhotoSlot } from './photo_slot.tsx'
import { paths } from './router.ts'

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
  const { ask } = view
  const href = paths.ask(card.job, place.method.id, place.step.id, ask.id)
  const answers = askAnswers(card, view)
  const remark = view.values.find((value) => value.sentBack !== '')?.sentBack
  const two = view.values.some((value) => value.twoStand)
  return (
    <div class="ask">
      {reader ? (
        <p>
          <strong>{capital(ask.name)}</strong>
        </p>
      ) : view.open ? (
        <OpenAsk card={card} place={place} view={view} href={href} />
      ) : (
        <MadeAsk view={view} href={href} />
      )}
      {remark && <p class="in-stop">{w.card.sentBack(remark)}</p>}
      {two && <p class="in-stop">{w.card.twoValues}</p>}
      {answers.map(({ known, line, fault }) => (
        <p key={known.entry.hash} class={fault ? 'made made-fault' : 'made'}>
          <Mark name={fault ? 'finding' : 'done'} />
          <span>
            {line}
            {' · '}
            <span class="soft made-by">
              {w.common.by(personName(card, known.entry.by), clockTime(known.entry.at_ms))}
            </span>
          </span>
        </p>
      ))}
    </div>
  )
}

function OpenAsk({ card, place, view, href }: Omit<RowProps, 'reader'> & { href: string }): JSX.Element {
  const { record } = usePhone()
  const { ask } = view
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

/** Answered: print, with a way to record it again where the kind allows it. */
function MadeAsk({ view, href }: { view: AskView; href: string }): JSX.Element {
  const { ask } = view
  if (ask.kind === 'tick') return <p class="ask-name">{capital(ask.name)}</p>
  const word = ask.kind === 'heat_run' || ask.kind === 'tally' ? askVerb(ask) : w.card.change
  return (
    <p class="ask-name">
      <span>
        {(ask.kind === 'heat_run' || ask.kind === 'tally') && <Mark name="done" />} {capital(ask.name)}
      </span>
      <a class="key key-plain" href={href} aria-label={`${word}: ${capital(ask.name)}`}>
        {word}
      </a>
    </p>
  )
}
