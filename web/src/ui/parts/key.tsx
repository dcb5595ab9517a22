// What can be pressed: a key with a lower edge; the main key is the one act of the screen.
import type { ComponentChildren, JSX } from 'preact'
import { Mark, type MarkName } from './mark.tsx'

export type KeyTone = 'plain' | 'main' | 'stop' | 'dev' | 'held'

export type KeyProps = {
  children: ComponentChildren
  onPress: () => void
  tone?: KeyTone
  mark?: MarkName
  /** One line below the name: 'photo can follow'. */
  small?: string | undefined
  /** Stopped at a hold point: the key keeps its name, stays focusable, and its press goes to the first check. */
  held?: boolean
  /** Not yet: something must be typed or checked first; its press goes there. */
  waiting?: boolean
  pressed?: boolean | undefined
  label?: string | undefined
  class?: string
  id?: string
}

export function Key(props: KeyProps): JSX.Element {
  const tone = props.held ? 'held' : props.waiting ? 'waiting' : (props.tone ?? 'plain')
  const main = props.tone === 'main' || props.tone === 'held'
  return (
    <button
      type="button"
      id={props.id}
      class={`key key-${tone}${main ? ' key-large' : ''} ${props.class ?? ''}`}
      aria-disabled={props.held || props.waiting ? 'true' : undefined}
      aria-pressed={props.pressed}
      aria-label={props.label}
      onClick={props.onPress}
    >
      {props.mark && <Mark name={props.mark} />}
      <span>
        {props.children}
        {props.small && <small>{props.small}</small>}
      </span>
    </button>
  )
}

export function KeyLink(props: {
  href: string
  children: ComponentChildren
  mark?: MarkName
  tone?: KeyTone
  class?: string
  label?: string
}): JSX.Element {
  return (
    <a
      aria-label={props.label}
      class={`key key-${props.tone ?? 'plain'}${props.tone === 'main' ? ' key-large' : ''} ${props.class ?? ''}`}
      href={props.href}
    >
      {props.mark && <Mark name={props.mark} />}
      <span>{props.children}</span>
    </a>
  )
}
