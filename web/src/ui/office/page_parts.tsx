// Parts of every office page: its head, what it says when empty, loading, refused or silent, and its sheet.
import type { ComponentChildren, JSX } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import type { Seen } from '../../office_api/feed.ts'
import { Mark, type MarkName } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { clockTime } from '../words/format.ts'
import { o } from '../words/office_en.ts'

/** What the browser calls the page, in its tab, in its history and to who hears it read. */
export function usePageTitle(title: string): void {
  useEffect(() => {
    document.title = `${title} · ${w.common.product}`
  }, [title])
}

/** `tab`: what the browser calls the page, where its heading says more than a name. */
export function Head(props: { title: string; tab?: string; children?: ComponentChildren }): JSX.Element {
  usePageTitle(props.tab ?? props.title)
  return (
    <div class="o-head">
      <h1 tabIndex={-1}>{props.title}</h1>
      {props.children && <div class="o-keys">{props.children}</div>}
    </div>
  )
}

export function Empty(props: { words: string; next: string; children?: ComponentChildren }): JSX.Element {
  return (
    <div class="o-empty">
      <p>
        <strong>{props.words}</strong> {props.next}
      </p>
      {props.children}
    </div>
  )
}

/** A line across the page: shape, then words. */
export function Band(props: {
  mark: MarkName
  tone?: 'stop' | 'hot'
  children: ComponentChildren
}): JSX.Element {
  return (
    <div class={`o-band o-band-${props.tone ?? 'plain'}`}>
      <Mark name={props.mark} />
      <p>{props.children}</p>
    </div>
  )
}

function Silent({ seen, onAgain }: { seen: Seen<unknown>; onAgain: () => void }): JSX.Element {
  const first = seen.value === undefined
  return (
    <div class="o-silent" role="status">
      <Band mark="absent">
        <strong>{first ? o.seen.silentFirst : o.seen.silent(clockTime(seen.silent_since_ms ?? 0))}</strong>{' '}
        {first ? o.seen.silentFirstNext : o.seen.silentNext}
      </Band>
      <button type="button" class="key key-plain" onClick={onAgain}>
        <span>{o.seen.again}</span>
      </button>
    </div>
  )
}

type SeenProps<T> = {
  seen: Seen<T>
  refresh: () => void
  children: (value: T) => ComponentChildren
}

/** Shows what a feed has: loading, refused, silent with what was heard last, or the value. */
export function SeenPage<T>({ seen, refresh, children }: SeenProps<T>): JSX.Element {
  return (
    <>
      {seen.silent_since_ms !== undefined && <Silent seen={seen} onAgain={refresh} />}
      {seen.refusal && (
        <Band mark="refused" tone="stop">
          <strong>{seen.refusal.message || o.seen.refused}</strong> {o.seen.code(seen.refusal.code)}
        </Band>
      )}
      {seen.value !== undefined && children(seen.value)}
      {seen.value === undefined && !seen.refusal && seen.silent_since_ms === undefined && (
        <p class="o-loading">{o.seen.loading}</p>
      )}
    </>
  )
}

/** The sheet over the page: focus goes in, Escape closes, focus comes back. */
export function Sheet(props: {
  title: string
  onClose: () => void
  children: ComponentChildren
}): JSX.Element {
  const dialog = useRef<HTMLDialogElement>(null)
  useEffect(() => {
    dialog.current?.showModal()
  }, [])
  return (
    <dialog ref={dialog} class="o-sheet" aria-label={props.title} onClose={props.onClose}>
      <div class="o-sheet-head">
        <h2>{props.title}</h2>
        <button type="button" class="key key-plain" onClick={() => dialog.current?.close()}>
          <span>{o.act.close}</span>
        </button>
      </div>
      {props.children}
    </dialog>
  )
}

export function LinkButton(props: {
  label: string
  onPress: () => void
  children: ComponentChildren
}): JSX.Element {
  return (
    <button type="button" class="o-link" aria-label={props.label} onClick={props.onPress}>
      {props.children}
    </button>
  )
}
