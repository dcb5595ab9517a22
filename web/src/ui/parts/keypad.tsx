// The keypad of a reading: 3 by 4 keys under the thumb; the phone's own keyboard types as well.
import type { JSX } from 'preact'
import { useEffect } from 'preact/hooks'
import { w } from '../words/en.ts'
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
  typed: string
  onTyped: (typed: string) => void
  decimals: boolean
  negative: boolean
  onEnter: () => void
}

export function Keypad({ typed, onTyped, decimals, negative, onEnter }: KeypadProps): JSX.Element {
  const press = (key: string) => onTyped(typedAfter(typed, key))
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      if (event.target instanceof HTMLElement && event.target.closest('input, textarea, dialog')) return
      const key =
        event.key === 'Backspace' ? ERASE : event.key === ',' ? '.' : event.key === '-' ? SIGN : event.key
      if (/^[0-9.]$|^erase$|^sign$/.test(key)) press(key)
      else if (key === 'Enter' && !(event.target instanceof HTMLButtonElement)) onEnter()
    }
    addEventListener('keydown', listen)
    return () => removeEventListener('keydown', listen)
  })
  return (
    <fieldset class="pad">
      <legend class="unseen">{w.card.reading.keypad}</legend>
      {['1', '2', '3', '4', '5', '6', '7', '8', '9'].map((digit) => (
        <Key key={digit} onPress={() => press(digit)}>
          {digit}
        </Key>
      ))}
      {decimals || !negative ? (
        <Key onPress={() => press('.')} label={w.card.reading.point}>
          .
        </Key>
      ) : (
        <Key onPress={() => press(SIGN)} label={w.card.reading.sign}>
          ±
        </Key>
      )}
      <Key onPress={() => press('0')}>0</Key>
      <Key onPress={() => press(ERASE)} label={w.card.reading.erase}>
        <Mark name="erase" />
      </Key>
      {decimals && negative && (
        <Key class="pad-wide" onPress={() => press(SIGN)} label={w.card.reading.sign}>
          ±
        </Key>
      )}
    </fieldset>
  )
}
