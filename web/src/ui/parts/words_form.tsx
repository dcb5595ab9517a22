// A reason, a note, a remark: one field for words and one key; the input stays while anything else happens.
import type { ComponentChildren, JSX } from 'preact'
import { useId, useRef, useState } from 'preact/hooks'
import { w } from '../words/en.ts'
import { Key, type KeyTone } from './key.tsx'

/** U+0000 and lone surrogates cannot be recorded: they go here, at the field, not at the office. */
export function cleaned(text: string): string {
  return [...text]
    .filter((char) => char !== '\u0000' && !/^[\ud800-\udfff]$/.test(char))
    .join('')
    .slice(0, 4000)
    .trim()
}

export type WordsInput = {
  readonly value: string
  /** Another text in its place, as if it had been typed. */
  readonly put: (text: string) => void
  readonly field: JSX.Element
  /** Gives the words to `record`, or says that they are missing and puts the focus there. */
  readonly submit: (record: (words: string) => void) => void
}

export function useWords(props: {
  label: string
  start?: string
  rows?: number
  missing?: string
  /** The heading says it already: the label is there for the ear. */
  quiet?: boolean
}): WordsInput {
  const id = useId()
  const area = useRef<HTMLTextAreaElement>(null)
  const [value, setValue] = useState(props.start ?? '')
  const [missing, setMissing] = useState(false)
  const submit = (record: (words: string) => void) => {
    const words = cleaned(value)
    if (words !== '') return record(words)
    setMissing(true)
    area.current?.focus()
  }
  const field = (
    <div class="field">
      <label for={id} class={props.quiet ? 'unseen' : undefined}>
        {props.label}
      </label>
      <textarea
        id={id}
        ref={area}
        rows={props.rows ?? 4}
        maxLength={4000}
        value={value}
        aria-invalid={missing}
        onInput={(event) => {
          setValue(event.currentTarget.value)
          setMissing(false)
        }}
      />
      <p class="field-fault" role="status">
        {missing ? (props.missing ?? w.card.needWords) : ''}
      </p>
    </div>
  )
  const put = (text: string) => {
    setValue(text)
    setMissing(false)
  }
  return { value, put, field, submit }
}

export type RecordKeyProps = {
  input: WordsInput
  tone?: KeyTone
  children: ComponentChildren
  onWords: (words: string) => void
}

export function RecordKey({ input, tone = 'main', children, onWords }: RecordKeyProps): JSX.Element {
  return (
    <Key tone={tone} class="key-large" onPress={() => input.submit(onWords)}>
      {children}
    </Key>
  )
}
