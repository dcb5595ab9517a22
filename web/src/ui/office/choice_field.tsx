// One of several, chosen from a list.
import type { JSX } from 'preact'
import { useId } from 'preact/hooks'

type ChoiceProps<T extends string> = {
  name: string
  value: T
  options: readonly { readonly id: T; readonly name: string }[]
  note?: string
  onPick: (id: T) => void
}

export function ChoiceField<T extends string>(props: ChoiceProps<T>): JSX.Element {
  const id = useId()
  return (
    <div class="o-field">
      <label for={id}>{props.name}</label>
      <select
        id={id}
        value={props.value}
        aria-describedby={props.note ? `${id}-note` : undefined}
        onChange={(event) => props.onPick(event.currentTarget.value as T)}
      >
        {props.options.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
      {props.note && (
        <p id={`${id}-note`} class="o-note">
          {props.note}
        </p>
      )}
    </div>
  )
}
