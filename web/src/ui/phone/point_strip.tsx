// The points of a reading in one line: what stands at each, which is typed now, and the way to any of them.
import type { JSX } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import type { ReadingAsk } from '../../core/method.ts'
import type { Value } from '../../core/views/answers.ts'
import type { Card } from '../../core/views/card.ts'
import { isJudgedOutside } from '../../core/views/reading_view.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { scaled } from '../words/format.ts'

type StripProps = {
  card: Card
  ask: ReadingAsk
  values: readonly Value[]
  at: number
  onPoint: (at: number) => void
}

export function PointStrip({ card, ask, values, at, onPoint }: StripProps): JSX.Element {
  const here = useRef<HTMLButtonElement>(null)
  useEffect(() => {
    here.current?.scrollIntoView({ block: 'nearest', inline: 'center' })
  }, [at])
  return (
    <fieldset class="points">
      <legend class="unseen">{askWords.reading.points}</legend>
      {values.map((value, index) => {
        const amount = amountOf(value)
        const outside = amount !== undefined && isJudgedOutside(card, ask, value.point, amount)
        const said = amount === undefined ? '' : scaled(amount, ask.decimals)
        return (
          <button
            key={value.point}
            ref={index === at ? here : null}
            type="button"
            class={outside ? 'point point-outside' : 'point'}
            aria-pressed={index === at}
            onClick={() => onPoint(index)}
          >
            <span>{value.name} </span>
            {said === '' ? <Mark name="open" /> : <strong>{said}</strong>}
            {said === '' && <span class="unseen">{w.states.open}</span>}
            {outside && <span class="unseen"> {askWords.reading.outside}</span>}
          </button>
        )
      })}
    </fieldset>
  )
}

function amountOf({ known }: Value): number | undefined {
  return known?.entry.kind === 'reading' && 'value' in known.entry.body ? known.entry.body.value : undefined
}
