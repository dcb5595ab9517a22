// A reading at one or several points: each in turn, the next open one by itself, and back to any of them.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { ReadingAsk } from '../../core/method.ts'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { ReadingPage } from './reading_page.tsx'

type ReadingProps = {
  card: Card
  place: StepPlace
  view: AskView
  ask: ReadingAsk
  /** The point to begin with; empty: the first that is open. */
  point: string
  onDone: () => void
}

/** What was typed at a point stays while another is looked at. */
export function ReadingScreen({ card, place, view, ask, point, onDone }: ReadingProps): JSX.Element | null {
  const { values } = view
  const missing = values.findIndex((value) => value.known === undefined)
  const asked = point === '' ? -1 : values.findIndex((value) => value.point === point)
  const [at, setAt] = useState(Math.max(0, asked === -1 ? missing : asked))
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({})
  const value = values[at]
  if (value === undefined) return null
  const next = () => {
    setTyped((all) => ({ ...all, [value.point]: '' }))
    const after = ask.where_needed ? -1 : nextOpen(values, at)
    if (after === -1) onDone()
    else setAt(after)
  }
  return (
    <ReadingPage
      key={value.point}
      card={card}
      place={place}
      ask={ask}
      values={values}
      at={at}
      typed={typed[value.point] ?? ''}
      onTyped={(change) => setTyped((all) => ({ ...all, [value.point]: change(all[value.point] ?? '') }))}
      onPoint={setAt}
      onNext={next}
    />
  )
}

/** The next point without a value after this one, round to the first; -1 where none lacks one. */
export function nextOpen(values: AskView['values'], at: number): number {
  const order = [...values.keys()]
  const round = [...order.slice(at + 1), ...order.slice(0, at)]
  return round.find((index) => values[index]?.known === undefined) ?? -1
}
