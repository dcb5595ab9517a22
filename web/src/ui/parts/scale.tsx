// The scale under a reading: its limits in words, and where the value stands.
import type { JSX } from 'preact'
import { w } from '../words/en.ts'
import { scaled } from '../words/format.ts'

type ScaleProps = {
  min?: number | undefined
  max?: number | undefined
  value: number | undefined
  decimals: number
}

/** The stretch that is drawn: the limits with as much again around them. */
function stretch({ min, max, value }: ScaleProps): [number, number] {
  const known = [min, max, value].filter((one) => one !== undefined)
  const low = min ?? Math.min(...known)
  const high = max ?? Math.max(...known)
  const room = Math.max(1, Math.round((high - low) / 2), Math.round(Math.abs(high) / 5))
  return [Math.min(low - room, value ?? low), Math.max(high + room, value ?? high)]
}

export function Scale(props: ScaleProps): JSX.Element | null {
  const { min, max, value, decimals } = props
  if (min === undefined && max === undefined) return null
  const [low, high] = stretch(props)
  const at = (one: number) => 4 + (292 * (one - low)) / (high - low)
  const words = [
    min === undefined ? '' : w.card.limits.min(scaled(min, decimals)),
    max === undefined ? '' : w.card.limits.max(scaled(max, decimals)),
  ]
  return (
    <div class="scale">
      <svg viewBox="0 0 300 34" aria-hidden="true">
        <path d="M4 28H296" stroke="currentColor" />
        <rect
          class="scale-band"
          x={at(min ?? low)}
          y="18"
          width={at(max ?? high) - at(min ?? low)}
          height="10"
        />
        {min !== undefined && <path d={`M${at(min)} 14V34`} stroke="currentColor" stroke-width="3" />}
        {max !== undefined && <path d={`M${at(max)} 14V34`} stroke="currentColor" stroke-width="3" />}
        {value !== undefined && <path d={`M${at(value) - 8} 0h16l-8 14z`} fill="currentColor" />}
      </svg>
      <p class="scale-words">
        <span>{words[0]}</span>
        <span>{words[1]}</span>
      </p>
    </div>
  )
}
