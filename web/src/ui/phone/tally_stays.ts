// Two ways of working: the same act at every position, or one rivet wholly through. The phone remembers which.
import { useEffect, useState } from 'preact/hooks'
import { usePhone } from './context.ts'

const KEPT_AS = 'tally_stays'

export function useStays(): readonly [boolean, (stays: boolean) => void] {
  const { store } = usePhone().services
  const [stays, setStays] = useState(false)
  useEffect(() => {
    void store.setting(KEPT_AS).then((kept) => setStays(kept === true))
  }, [store])
  const keep = (now: boolean) => {
    setStays(now)
    store.setSetting(KEPT_AS, now).catch(() => undefined) // a full store is said by the record itself
  }
  return [stays, keep]
}
