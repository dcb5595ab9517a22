// The first look of the day: each standing condition is looked at once, and said to hold or to be gone.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { condition } from '../../core/views/drafts.ts'
import { midnightBefore, type Standing, standingsOf } from '../../core/views/morning_view.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { morningWords } from '../words/en_step.ts'
import { capital, clockTime, longDay, when } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { Gone } from './condition_gone.tsx'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import './morning.css'
import { paths } from './router.ts'

type MorningProps = { card: Card; onDone: () => void }

export function MorningScreen({ card, onDone }: MorningProps): JSX.Element {
  const now_ms = usePhone().services.device.clock.now().at_ms
  const midnight_ms = midnightBefore(now_ms)
  const asked = standingsOf(card).filter(({ doc, on, gone }) => doc.asked_each_morning && (on || gone))
  const left = asked.filter((one) => !isSeenToday(one, midnight_ms))
  const gone = asked.some((one) => one.gone)
  return (
    <Frame
      act={`${card.job}/morning`}
      card={card}
      back={paths.jobs}
      foot={
        left.length > 0 ? (
          <>
            <p class="soft">{capital(morningWords.left(left.length))}</p>
            <Key onPress={onDone}>{morningWords.notNow}</Key>
          </>
        ) : (
          <Key tone="main" onPress={onDone} small={gone ? undefined : morningWords.all}>
            {morningWords.toCard}
          </Key>
        )
      }
    >
      <Leaf>
        <p class="stage">{longDay(now_ms)}</p>
        <h1 class="act close" tabIndex={-1}>
          {morningWords.title}
        </h1>
        <p class="lead">{morningWords.lead}</p>
        <ul class="morning">
          {asked.map((one) => (
            <Row key={one.doc.id} card={card} one={one} today={isSeenToday(one, midnight_ms)} />
          ))}
        </ul>
      </Leaf>
    </Frame>
  )
}

function isSeenToday({ seen }: Standing, midnight_ms: number): boolean {
  return seen !== undefined && seen.entry.at_ms >= midnight_ms
}

function Row({ card, one, today }: { card: Card; one: Standing; today: boolean }): JSX.Element {
  const now_ms = usePhone().services.device.clock.now().at_ms
  const { doc, gone, seen } = one
  const who = seen ? personName(card, seen.entry.by) : ''
  return (
    <li>
      <h2>{capital(doc.name)}</h2>
      {seen && today && (
        <p>
          <StateWord
            state={gone ? 'finding' : 'done'}
            word={capital(gone ? morningWords.gone : morningWords.said)}
          />{' '}
          <span class="label soft">{w.common.by(who, clockTime(seen.entry.at_ms))}</span>
        </p>
      )}
      {seen && !today && <p class="label soft">{morningWords.seen(who, when(seen.entry.at_ms, now_ms))}</p>}
      {gone ? <Gone card={card} one={one} /> : !today && <Look card={card} one={one} />}
    </li>
  )
}

function Look({ card, one }: { card: Card; one: Standing }): JSX.Element {
  const { record } = usePhone()
  const { id, name } = one.doc
  const say = (holds: boolean) => () => void record(card.job, [condition(card, id, holds)])
  return (
    <div class="morning-keys">
      <Key class="key-choice" onPress={say(true)} label={`${morningWords.still}: ${name}`}>
        {morningWords.still}
      </Key>
      <Key class="key-choice" tone="stop" onPress={say(false)} label={`${morningWords.changed}: ${name}`}>
        {morningWords.changed}
      </Key>
    </div>
  )
}
