// On a slow phone the first drawing of a page says what it waits for; the page itself comes right after it.
import { useEffect, useLayoutEffect, useState } from 'preact/hooks'

/** A page that takes longer than this to be made hardly stands within the tenth of a second after its tap. */
const SLOW_MS = 60

/** How long the last one took on this phone: the next will take about as long. */
let took_ms = 0

/** Whether to say first that the page is being made. */
export function useSlowFirst(): boolean {
  const [waits, setWaits] = useState(() => took_ms > SLOW_MS)
  useEffect(() => setWaits(false), []) // once that is drawn
  return waits
}

/** For the page that is measured, before anything else in it. */
export function useTaken(now: () => number = () => performance.now()): void {
  const [began_ms] = useState(now)
  useLayoutEffect(() => {
    took_ms = now() - began_ms
  }, [])
}
