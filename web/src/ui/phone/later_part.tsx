// Parts of the app that a first tick does not need: fetched when first shown, all of them after the first record.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'

export type Drawn<P> = (props: P) => JSX.Element | null
type Meanwhile = (state: 'loading' | 'failed') => JSX.Element | null

const loads: (() => Promise<unknown>)[] = []

/** What is no screen, and comes with the other parts. */
export function alsoLater(load: () => Promise<unknown>): void {
  loads.push(load)
}

/** A part of its own; once loaded it is drawn without a wait. `meanwhile` is drawn until then. */
export function laterPart<P extends object>(
  load: () => Promise<Drawn<P>>,
  meanwhile: Meanwhile = () => null,
): Drawn<P> {
  let loaded: Drawn<P> | undefined
  const fetchIt = async () => {
    loaded ??= await load()
  }
  loads.push(fetchIt)
  return function Later(props: P): JSX.Element | null {
    const [state, setState] = useState<'loading' | 'here' | 'failed'>(() =>
      loaded === undefined ? 'loading' : 'here',
    )
    useEffect(() => {
      // It may have come for somebody else since this was drawn: then there is nobody to draw it but this.
      if (state !== 'loading') return
      fetchIt().then(
        () => setState('here'),
        () => setState('failed'),
      )
    }, [])
    if (loaded === undefined) return meanwhile(state === 'failed' ? 'failed' : 'loading')
    const Shown = loaded
    return <Shown {...props} />
  }
}

let asked = false

/** Fetches every part, so that what follows needs no network; what fails now is tried again when shown. */
export function loadAllParts(): void {
  if (asked) return
  asked = true
  for (const load of loads) load().catch(() => undefined)
}
