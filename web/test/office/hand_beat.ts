// A clock and a page that a test moves by hand.
import type { Beat } from '../../src/office_api/feed.ts'

export function handBeat() {
  let now_ms = 1_000_000
  let seen = true
  const timers = new Set<{ at: number; run: () => void }>()
  const watchers = new Set<() => void>()
  const beat: Beat = {
    now: () => now_ms,
    after(ms, run) {
      const timer = { at: now_ms + ms, run }
      timers.add(timer)
      return () => timers.delete(timer)
    },
    isSeen: () => seen,
    onSeen(run) {
      watchers.add(run)
      return () => watchers.delete(run)
    },
  }
  const settle = async (): Promise<void> => {
    for (let turn = 0; turn < 20; turn += 1) await Promise.resolve()
  }
  return {
    beat,
    settle,
    async pass(ms: number) {
      now_ms += ms
      for (const timer of [...timers].filter((one) => one.at <= now_ms)) {
        timers.delete(timer)
        timer.run()
      }
      await settle()
    },
    async see(is: boolean) {
      seen = is
      for (const run of [...watchers]) run()
      await settle()
    },
  }
}
