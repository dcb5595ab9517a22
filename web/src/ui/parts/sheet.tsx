// The one thing that lies over the leaf: a sheet from below, a dialog with its focus kept and given back.
import type { ComponentChildren, JSX } from 'preact'
import { useEffect, useId, useRef } from 'preact/hooks'
import { w } from '../words/en.ts'
import { Key } from './key.tsx'

export function Sheet(props: {
  title: string
  onClose: () => void
  children: ComponentChildren
}): JSX.Element {
  const dialog = useRef<HTMLDialogElement>(null)
  const title = useId()
  useEffect(() => {
    const shown = dialog.current
    if (shown !== null && !shown.open) shown.showModal()
    return () => shown?.close()
  }, [])
  return (
    <dialog ref={dialog} class="sheet" aria-labelledby={title} onCancel={props.onClose}>
      <div class="sheet-head">
        <h2 id={title}>{props.title}</h2>
        <Key onPress={props.onClose}>{w.common.close}</Key>
      </div>
      <div class="sheet-body">{props.children}</div>
    </dialog>
  )
}
