// Fields, keys and messages of the office's forms.
import type { ComponentChildren, JSX, TargetedEvent } from 'preact'
import { useId } from 'preact/hooks'
import { Mark } from '../parts/mark.tsx'
import { o } from '../words/office_en.ts'
import type { Act, ActState } from './use_act.ts'

type FieldProps = {
  name: string
  value: string
  onType: (value: string) => void
  note?: string | undefined
  type?: 'text' | 'password' | 'date'
  numeric?: boolean
  autocomplete?: string
  max?: number
  /** What a browser may offer while somebody types. */
  offers?: readonly string[]
}

export function Field(props: FieldProps): JSX.Element {
  const id = useId()
  const shared = {
    id,
    value: props.value,
    maxLength: props.max ?? 200,
    autocomplete: props.autocomplete ?? 'off',
    'aria-describedby': props.note ? `${id}-note` : undefined,
    onInput: (event: TargetedEvent<HTMLInputElement>) => props.onType(event.currentTarget.value),
    list: props.offers ? `${id}-offers` : undefined,
  }
  return (
    <div class="o-field">
      <label for={id}>{props.name}</label>
      {props.type === 'password' && <input type="password" {...shared} />}
      {props.type === 'date' && <input type="date" {...shared} />}
      {(props.type ?? 'text') === 'text' && (
        <input type="text" inputMode={props.numeric ? 'numeric' : 'text'} {...shared} />
      )}
      {props.offers && (
        <datalist id={`${id}-offers`}>
          {props.offers.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
      )}
      {props.note && (
        <p id={`${id}-note`} class="o-note">
          {props.note}
        </p>
      )}
    </div>
  )
}

export function TextField(props: {
  name: string
  value: string
  onType: (value: string) => void
  max?: number
}): JSX.Element {
  const id = useId()
  return (
    <div class="o-field">
      <label for={id}>{props.name}</label>
      <textarea
        id={id}
        rows={3}
        maxLength={props.max ?? 4000}
        value={props.value}
        onInput={(event) => props.onType(event.currentTarget.value)}
      />
    </div>
  )
}

export type Option = { readonly id: string; readonly name: string; readonly note?: string | undefined }

type OptionsProps = {
  name: string
  options: readonly Option[]
  chosen: readonly string[]
  onChange: (chosen: readonly string[]) => void
  one?: boolean
}

/** A group of boxes, or of radio keys where only one can be chosen. */
export function Options({ name, options, chosen, onChange, one = false }: OptionsProps): JSX.Element {
  const group = useId()
  const turn = (id: string): readonly string[] => {
    if (one) return [id]
    return chosen.includes(id) ? chosen.filter((other) => other !== id) : [...chosen, id]
  }
  return (
    <fieldset class={one ? 'o-options o-options-row' : 'o-options'}>
      <legend>{name}</legend>
      {options.map((option) => (
        <label key={option.id} class="o-option">
          <input
            type={one ? 'radio' : 'checkbox'}
            name={group}
            checked={chosen.includes(option.id)}
            onChange={() => onChange(turn(option.id))}
          />
          <span>
            {option.name}
            {option.note && <small>{option.note}</small>}
          </span>
        </label>
      ))}
    </fieldset>
  )
}

type FileFieldProps = {
  name: string
  accept: string
  many?: boolean
  onPick: (files: readonly File[]) => void
}

export function FileField({ name, accept, many = false, onPick }: FileFieldProps): JSX.Element {
  const id = useId()
  return (
    <div class="o-field">
      <label for={id}>{name}</label>
      <input
        id={id}
        type="file"
        accept={accept}
        multiple={many}
        onChange={(event) => onPick([...(event.currentTarget.files ?? [])])}
      />
    </div>
  )
}

function wordsOf(state: ActState): readonly [strong: string, rest: string] | undefined {
  switch (state.at) {
    case 'silent':
      return [o.act.silent, o.act.silentNext]
    case 'cancelled':
      return [o.act.stopped, '']
    case 'unready':
      return [state.words, '']
    case 'refused':
      return [state.refusal.message || o.act.refused(state.refusal.code), '']
    default:
      return undefined
  }
}

/** Why an act was not taken; a form that lost nothing says so. */
export function ActWords({ state }: { state: ActState }): JSX.Element {
  const words = wordsOf(state)
  return (
    <div role="alert" class="o-act-words">
      {words && (
        <p class={state.at === 'refused' ? 'in-stop' : ''}>
          <Mark name={state.at === 'refused' ? 'refused' : 'caution'} />
          <span>
            <strong>{words[0]}</strong> {words[1]}
          </span>
        </p>
      )}
    </div>
  )
}

/** Faults of a file are listed by their form, line by line. */
function isListed(state: ActState): boolean {
  return state.at === 'refused' && state.refusal.faults.length > 0
}

type FormProps = {
  act: Act
  submit: string
  working?: string
  tone?: 'main' | 'stop'
  stoppable?: boolean
  onSubmit: () => void
  onCancel?: (() => void) | undefined
  label?: string
  children?: ComponentChildren
}

/** A form whose key says what it does; under way it says so, and can be left where that takes long. */
export function Form(props: FormProps): JSX.Element {
  const { act } = props
  const working = act.state.at === 'working'
  const submit = (event: Event): void => {
    event.preventDefault()
    if (!working) props.onSubmit()
  }
  return (
    <form class="o-form" aria-label={props.label} onSubmit={submit} noValidate>
      {props.children}
      {!isListed(act.state) && <ActWords state={act.state} />}
      {working && (
        <p role="status" class="o-working">
          <Mark name="clock" />
          <span>{props.working ?? o.act.recording}</span>
        </p>
      )}
      <div class="o-keys">
        <button
          type="submit"
          class={`key key-${props.tone ?? 'main'}`}
          aria-disabled={working ? 'true' : undefined}
        >
          <span>{props.submit}</span>
        </button>
        {working && props.stoppable && (
          <button type="button" class="key key-plain" onClick={act.stop}>
            <span>{o.act.stop}</span>
          </button>
        )}
        {!working && props.onCancel && (
          <button type="button" class="key key-plain" onClick={props.onCancel}>
            <span>{o.act.cancel}</span>
          </button>
        )}
      </div>
    </form>
  )
}
