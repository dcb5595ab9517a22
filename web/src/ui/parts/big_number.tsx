// The big number: each digit in a cell of its own, since the display face has no usable tabular figures.
import type { JSX } from 'preact'

const DIGIT = /\d/

/** `text` may hold one break, written as a space or after a colon, so that it wraps between minutes and seconds. */
export function Digits({ text }: { text: string }): JSX.Element {
  const groups = text.split(/(?<=:)/)
  let index = 0
  return (
    <>
      {groups.map((group) => (
        <span key={index++} class="digits">
          {[...group].map((char) => (
            <span key={index++} class={DIGIT.test(char) ? 'd' : ''}>
              {char}
            </span>
          ))}
        </span>
      ))}
    </>
  )
}

type BigProps = { text: string; unit?: string; label: string; timer?: boolean }

export function BigNumber({ text, unit, label, timer = false }: BigProps): JSX.Element {
  const shown = (
    <>
      <span aria-hidden="true">
        <Digits text={text} />
      </span>
      {unit && (
        <span class="unit" aria-hidden="true">
          {unit}
        </span>
      )}
    </>
  )
  if (!timer) {
    return (
      <div class="big" role="img" aria-label={label}>
        {shown}
      </div>
    )
  }
  return (
    <div class="big" role="timer" aria-label={label} aria-live="off">
      {shown}
    </div>
  )
}
