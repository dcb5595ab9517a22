// The keypad of a reading: 3 by 4 keys under the thumb; the phone's own keyboard types as well.
import type { JSX, RefObject } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import { askWords } from '../words/en_asks.ts'
import { Key } from './key.tsx'
import { Mark } from './mark.tsx'

const ERASE = 'erase'
const SIGN = 'sign'

/** What stands in the field after a key; a second point and a thirteenth digit are not typed. */
export function typedAfter(typed: string, key: string): string {
  if (key === ERASE) return typed.slice(0, -1)
  if (key === SIGN) return typed.startsWith('-') ? typed.slice(1) : `-${typed}`
  if (key === '.' && typed.includes('.')) return typed
  return typed.length >= 12 ? typed : typed + key
}

type KeypadProps = {
  /** Each key is a change of what was typed, so that fast keys lose nothing. */
  onTyped: (change: (typed: string) => string) => void
  decimals: boolean
  negative: boolean
  onEnter: () => void
}

const DIGITS = ['1', '2', '3', '4', '5', '6', '7', '8', '9']

export function Keypad({ onTyped, decimals, negative, onEnter }: KeypadProps): JSX.Element {
  const press = (key: string) => onTyped((typed) => typedAfter(typed, key))
  const pad = useRef<HTMLFieldSetElement>(null)
  useKeyboard(pad, press, onEnter)
  const extra = Number(decimals) + Number(negative)
  return (
    <fieldset ref={pad} class={`pad pad-extra-${extra}`}>
      <legend class="unseen">{askWords.reading.keypad}</legend>
      {DIGITS.map((digit) => (
        <Key key={digit} onPress={() => press(digit)}>
          {digit}
        </Key>
      ))}
      {decimals && (
        <Key class="pad-low" onPress={() => press('.')} label={askWords.reading.point}>
          .
        </Key>
      )}
      <Key class="pad-low" onPress={() => press('0')}>
        0
      </Key>
      {negative && (
        <Key class="pad-low" onPress={() => press(SIGN)} label={askWords.reading.sign}>
          ±
        </Key>
      )}
      <Key class="pad-low" onPress={() => press(ERASE)} label={askWords.reading.erase}>
        <Mark name="erase" />
      </Key>
    </fieldset>
  )
}

const NAMED: Record<string, string> = { Backspace: ERASE, ',': '.', '-': SIGN }

/** The keyboard of a tablet or a desk types as well, wherever no field has the focus. */
function useKeyboard(
  pad: RefObject<HTMLFieldSetElement | null>,
  press: (key: string) => void,
  onEnter: () => void,
): void {
  const now = useRef({ press, onEnter })
  now.current = { press, onEnter }
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      const on = event.target instanceof HTMLElement ? event.target : undefined
      const outOfSight = pad.current?.closest('[hidden]')
      if (outOfSight || on?.closest('input, textarea, select, dialog')) return
      const key = NAMED[event.key] ?? event.key
      if (/^[0-9.]$/.test(key) || key === ERASE || key === SIGN) now.current.press(key)
      else if (key === 'Enter' && !on?.closest('button, a, summary')) now.current.onEnter()
    }
    addEventListener('keydown', listen)
    return () => removeEventListener('keydown', listen)
  }, [pad])
}
