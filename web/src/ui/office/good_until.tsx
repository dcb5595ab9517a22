// A day until which something is good: with its shape and words where it is near or over.
import type { JSX } from 'preact'
import { daysUntil, standingOf } from '../../core/views/calibration.ts'
import { Mark } from '../parts/mark.tsx'
import { date } from '../words/format.ts'
import { noonOf } from './today.ts'

type GoodUntilProps = {
  day: string
  today: string
  words: {
    readonly unknown: string
    readonly over: (days: number) => string
    readonly soon: (days: number) => string
  }
}

export function GoodUntil({ day, today, words }: GoodUntilProps): JSX.Element {
  const standing = standingOf(day, today)
  if (standing === 'unknown') return <span class="soft">{words.unknown}</span>
  const said = date(noonOf(day))
  if (standing === 'good') return <>{said}</>
  const days = daysUntil(day, today)
  return (
    <span class={standing === 'over' ? 'o-line in-stop' : 'o-line'}>
      <Mark name={standing === 'over' ? 'finding' : 'clock'} />
      <span>
        {said}, {standing === 'over' ? words.over(-days) : words.soon(days)}
      </span>
    </span>
  )
}
