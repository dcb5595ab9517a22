// The page of the logbook: folio above, ruled leaf, foot with the keys at the thumb.
import type { ComponentChildren, JSX } from 'preact'
import { Mark } from './mark.tsx'

/** One page of the phone. `due` turns the whole page amber; nothing else ever does. */
export function Page(props: {
  folio: ComponentChildren
  foot?: ComponentChildren
  due?: boolean
  children: ComponentChildren
}): JSX.Element {
  return (
    <div class={`phone${props.due ? ' due' : ''}`}>
      {props.folio}
      <main class="phone-main">{props.children}</main>
      {props.foot && <footer class="foot">{props.foot}</footer>}
    </div>
  )
}

/** Ruled paper; `plain` leaves the margin out where numbers need the width. */
export function Leaf({
  plain = false,
  children,
}: {
  plain?: boolean
  children: ComponentChildren
}): JSX.Element {
  return <div class={plain ? 'leaf leaf-plain' : 'leaf'}>{children}</div>
}

/** A caution runs across the rule, directly under the act's name. */
export function Caution({ children }: { children: ComponentChildren }): JSX.Element {
  return (
    <p class="caution bleed">
      <Mark name="caution" />
      <span>{children}</span>
    </p>
  )
}

/** A fact in one line: what it is, what it says. */
export function Facts({ rows }: { rows: readonly (readonly [string, ComponentChildren])[] }): JSX.Element {
  return (
    <dl class="facts">
      {rows.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
}
