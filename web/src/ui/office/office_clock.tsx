// The office page's clock: who shows ages is drawn anew each second, who shows days each minute, nobody else.
import { type ComponentChildren, createContext, type JSX } from 'preact'
import { useContext, useEffect, useState } from 'preact/hooks'
import type { Beat } from '../../office_api/feed.ts'

const SECOND_MS = 1000
const MINUTE_MS = 60_000

const Second = createContext(0)
const Minute = createContext(0)

export function OfficeClock({ beat, children }: { beat: Beat; children: ComponentChildren }): JSX.Element {
  const [now_ms, setNow] = useState(beat.now())
  useEffect(() => {
    const timer = setInterval(() => setNow(beat.now()), SECOND_MS)
    return () => clearInterval(timer)
  }, [beat])
  return (
    <Minute.Provider value={Math.floor(now_ms / MINUTE_MS) * MINUTE_MS}>
      <Second.Provider value={now_ms}>{children}</Second.Provider>
    </Minute.Provider>
  )
}

/** Now, to the second: for ages and for runs. */
export const useSecond = (): number => useContext(Second)

/** The minute that runs: for what only tells today from other days. */
export const useMinute = (): number => useContext(Minute)
