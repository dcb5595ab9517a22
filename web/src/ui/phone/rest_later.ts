// A page's first screen is drawn first; what lies below it comes a moment later.
import { useEffect, useState } from 'preact/hooks'
import { whenIdle } from './when_idle.ts'

/** Whether the rest is drawn too; at once where the page is come back to, and stands where it was read. */
export function useRest(): boolean {
  const [whole, setWhole] = useState(() => Boolean((history.state as { y?: number } | null)?.y))
  useEffect(() => whenIdle(() => setWhole(true)), [])
  return whole
}
