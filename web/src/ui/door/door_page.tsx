// One page at the phone's door: a heading that is read out, words, and keys at the thumb.
import type { ComponentChildren, JSX } from 'preact'
import { useEffect, useRef } from 'preact/hooks'
import { Mark, type MarkName } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import './door.css'

type DoorPageProps = {
  title: string
  mark?: MarkName
  words?: string
  foot?: ComponentChildren
  children?: ComponentChildren
}

/** One page at the door; its heading takes the focus, so that it is read out. */
export function DoorPage({ title, mark, words, foot, children }: DoorPageProps): JSX.Element {
  const heading = useRef<HTMLHeadingElement>(null)
  useEffect(() => heading.current?.focus(), [title])
  return (
    <div class="phone door">
      <header class="door-top">
        <span class="num">{w.common.product}</span>
      </header>
      <main class="door-leaf">
        <h1 ref={heading} tabIndex={-1} class="act">
          {mark && <Mark name={mark} />}
          <span>{title}</span>
        </h1>
        {words && <p class="door-lead">{words}</p>}
        {children}
      </main>
      {foot && <footer class="foot">{foot}</footer>}
    </div>
  )
}
