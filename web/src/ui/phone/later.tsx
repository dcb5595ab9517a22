// Screens that a first tick does not need: fetched when they are first shown, all of them after the first record.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { w } from '../words/en.ts'
import { LoadingPage, LostPage } from './plain_pages.tsx'
import { paths } from './router.ts'

type Screen<P> = (props: P) => JSX.Element | null

const loads: (() => Promise<unknown>)[] = []

/** A screen in a part of its own; once loaded it is drawn without a wait. */
export function later<P extends object>(load: () => Promise<Screen<P>>): Screen<P> {
  let loaded: Screen<P> | undefined
  const fetchIt = async () => {
    loaded ??= await load()
    return loaded
  }
  loads.push(fetchIt)
  return function Later(props: P): JSX.Element {
    const [, redraw] = useState<'' | 'here' | 'failed'>('')
    const [failed, setFailed] = useState(false)
    useEffect(() => {
      if (loaded !== undefined) return
      fetchIt().then(
        () => redraw('here'),
        () => setFailed(true),
      )
    }, [])
    if (loaded !== undefined) {
      const Shown = loaded
      return <Shown {...props} />
    }
    return failed ? <LostPage what={w.phone.pages.partMissing} up={paths.jobs} /> : <LoadingPage />
  }
}

let asked = false

/** Fetches every part, so that what follows needs no network; what fails now is tried again when shown. */
export function loadAllParts(): void {
  if (asked) return
  asked = true
  for (const load of loads) load().catch(() => undefined)
}
