// The PIN of a person on a phone that is not their own: checked here, without the office.
import type { JSX } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { Somebody } from '../../core/views/card.ts'
import { askWords } from '../words/en_asks.ts'
import { usePhone } from './context.ts'
import './pin.css'

type PinProps = { person: Somebody; keyWords: string; onKnown: () => void }

/** Says so where the person has none: who has no PIN cannot be known by one. */
export function PinEntry({ person, keyWords, onKnown }: PinProps): JSX.Element {
  const { services, people } = usePhone()
  const id = useId()
  const [pin, setPin] = useState('')
  const [state, setState] = useState<'' | 'checking' | 'wrong'>('')
  const known = people.value.find((one) => one.id === person.id)
  if (known?.pin === undefined) return <p>{askWords.sign.noPin}</p>
  const check = async () => {
    setState('checking')
    if (!(await services.device.checkPin(known, pin))) {
      services.device.sound.call('held')
      setPin('')
      return setState('wrong')
    }
    onKnown()
  }
  return (
    <form
      class="field pin"
      onSubmit={(event) => {
        event.preventDefault()
        void check()
      }}
    >
      <label for={id}>{askWords.sign.pinOf(person.name)}</label>
      <input
        id={id}
        type="password"
        inputMode="numeric"
        autocomplete="off"
        value={pin}
        aria-invalid={state === 'wrong'}
        onInput={(event) => setPin(event.currentTarget.value)}
      />
      <p class={state === 'wrong' ? 'field-fault' : 'label'} role="status">
        {state === 'wrong' ? askWords.sign.wrongPin : state === 'checking' ? askWords.sign.checking : ''}
      </p>
      <button type="submit" class="key key-main key-large">
        <span>{keyWords}</span>
      </button>
    </form>
  )
}
