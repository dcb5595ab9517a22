// One name and what stands under it; nothing where there is nothing.
import type { ComponentChildren, JSX } from 'preact'

export function Fact(props: { name: string; children: ComponentChildren }): JSX.Element | null {
  if (props.children === '') return null
  return (
    <>
      <dt>{props.name}</dt>
      <dd>{props.children}</dd>
    </>
  )
}
