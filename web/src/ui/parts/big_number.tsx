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

export function BigNumber(props: {
  text: string
  unit?: string
  label: string
  timer?: boolean
}): JSX.Element {
  return (
    <div class="big" role={props.timer ? 'timer' : 'img'} aria-label={props.label} aria-live="off">
      <span aria-hidden="true">
        <Digits text={props.text} />
      </span>
      {props.unit && (
        <span class="unit" aria-hidden="true">
          {props.unit}
        </span>
      )}
    </div>
  )
}
