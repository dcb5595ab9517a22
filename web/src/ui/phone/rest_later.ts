// A page's first screen is drawn first; what lies below it comes a moment later.
import { useEffect, useState } from 'preact/hooks'
import { whenIdle } from './when_idle.ts'

/** Whether the rest of a long page is drawn too; at once where it is come back to, and stands where it was read. */
export function useRest(isLong = true): boolean {
  const [whole, setWhole] = useState(() => !isLong || Boolean((history.state as { y?: number } | null)?.y))
  useEffect(() => (whole ? undefined : whenIdle(() => setWhole(true))), [])
  return whole
}
