// A register of the shop: the key that adds a row, what was saved, and the sheet in which a row is changed.
import type { ComponentChildren, JSX } from 'preact'
import { useState } from 'preact/hooks'
import { Head, Sheet } from './page_parts.tsx'

type RegisterProps<Row> = {
  words: {
    readonly title: string
    readonly add: string
    readonly change: (name: string) => string
    readonly saved: (name: string) => string
  }
  /** What a new row begins with; always the same object. */
  fresh: Row
  nameOf: (row: Row) => string
  refresh: () => void
  form: (row: Row, ends: { onDone: (name: string) => void; onCancel: () => void }) => JSX.Element
  children: (change: (row: Row) => void) => ComponentChildren
}

export function RegisterPage<Row>(props: RegisterProps<Row>): JSX.Element {
  const { words, fresh, nameOf, refresh, form, children } = props
  const [open, setOpen] = useState<{ readonly row: Row }>()
  const [saved, setSaved] = useState('')
  const change = (row: Row): void => setOpen({ row })
  const onCancel = (): void => setOpen(undefined)
  const onDone = (name: string): void => {
    setOpen(undefined)
    setSaved(name)
    refresh()
  }
  return (
    <>
      <Head title={words.title}>
        <button type="button" class="key key-main" onClick={() => change(fresh)}>
          <span>{words.add}</span>
        </button>
      </Head>
      <p role="status">{saved !== '' && words.saved(saved)}</p>
      {children(change)}
      {open && (
        <Sheet title={open.row === fresh ? words.add : words.change(nameOf(open.row))} onClose={onCancel}>
          {form(open.row, { onDone, onCancel })}
        </Sheet>
      )}
    </>
  )
}
