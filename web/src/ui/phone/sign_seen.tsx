// What a countersign covers: one line for each ask, however many points or rivets it has; what is outside, by itself.
import type { JSX } from 'preact'
import { type Entry, isTallyMark } from '../../core/entries.ts'
import { askOf, type Card, type StepPlace } from '../../core/views/card.ts'
import { isOutsideLimits, seenTogether } from '../../core/views/sign_view.ts'
import { StateWord } from '../parts/state_word.tsx'
import { describe } from '../words/describe.ts'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { ladder } from '../words/en_kinds.ts'
import { capital, clockTime, listed, quantity } from '../words/format.ts'
import { personName } from '../words/names.ts'

type SeenProps = { card: Card; place: StepPlace; saw: readonly string[] }

export function Seen({ card, place, saw }: SeenProps): JSX.Element {
  const groups = seenTogether(card, saw)
  if (groups.length === 0) return <p>{askWords.sign.nothing}</p>
  return (
    <section>
      <h2 class="label-head">{askWords.sign.sees}</h2>
      <ul class="lines">
        {groups.map((entries) => (
          <Together key={entries[0]?.hash} card={card} place={place} entries={entries} />
        ))}
      </ul>
    </section>
  )
}

type TogetherProps = { card: Card; place: StepPlace; entries: readonly Entry[] }

function Together({ card, place, entries }: TogetherProps): JSX.Element {
  const [first] = entries
  return (
    <li>
      {first && entries.length === 1 ? describe(card, first) : groupWords(place, entries)}
      {' · '}
      <span class="soft made-by">{byWhom(card, entries)}</span>
      {first && isOutsideLimits(card, first.hash) && (
        <p>
          <StateWord state="finding" word={askWords.reading.outside} />
        </p>
      )}
    </li>
  )
}

/** All names, and from when to when. */
function byWhom(card: Card, entries: readonly Entry[]): string {
  const names = [...new Set(entries.map(({ by }) => personName(card, by)))]
  const times = entries.map(({ at_ms }) => at_ms)
  const [from, to] = [clockTime(Math.min(...times)), clockTime(Math.max(...times))]
  return w.common.by(listed(names), from === to ? from : `${from}–${to}`)
}

function groupWords(place: StepPlace, entries: readonly Entry[]): string {
  const [first] = entries
  return first?.kind === 'tally' ? rivetWords(entries) : pointWords(place, entries)
}

/** '22 rivets: shank out'. */
function rivetWords(entries: readonly Entry[]): string {
  const counts = new Map<string, number>()
  for (const entry of entries) {
    if (entry.kind !== 'tally' || isTallyMark(entry.body)) continue
    const state = ladder[entry.body.state]
    counts.set(state, (counts.get(state) ?? 0) + 1)
  }
  return [...counts].map(([state, n]) => askWords.sign.rivets(n, state)).join('; ')
}

/** 'Voltage: plus to minus 0.4 V, plus to body 0.2 V', in the method's order. */
function pointWords(place: StepPlace, entries: readonly Entry[]): string {
  const read = entries.flatMap(({ kind, body }) => (kind === 'reading' && 'value' in body ? [body] : []))
  const ask = askOf(place, read[0]?.ask ?? '')
  const points = ask?.kind === 'reading' ? ask.points : []
  const values = points.flatMap(({ id, name }) =>
    read
      .filter(({ point }) => point === id)
      .map(({ value, decimals, unit }) => `${name} ${quantity(value, decimals, unit)}`),
  )
  return `${capital(ask?.name ?? '')}: ${values.join(', ')}`
}
