// Loading, and pages that are not there: one sentence and what comes next.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { w } from '../words/en.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'

/** Words only after 300 ms, so that a quick start does not flicker. */
export function LoadingPage(): JSX.Element {
  const [slow, setSlow] = useState(false)
  useEffect(() => {
    const timer = setTimeout(() => setSlow(true), 300)
    return () => clearTimeout(timer)
  }, [])
  return <main class="phone">{slow && <p class="loading">{w.phone.pages.starting}</p>}</main>
}

/** `comes`: what is looked for may be among the records that the office sends. */
export function LostPage(props: { what: string; up: string; comes?: boolean }): JSX.Element {
  const { what, up, comes } = props
  const { state } = usePhone().services.sync.status.value
  const coming = comes && state === 'syncing'
  return (
    <Frame
      act={`lost/${what}`}
      back={up}
      foot={
        <KeyLink tone="main" href={up}>
          {w.common.back}
        </KeyLink>
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {what}
        </h1>
        <p>{coming ? w.phone.pages.stillComing : w.common.nothingLost}</p>
      </Leaf>
    </Frame>
  )
}
