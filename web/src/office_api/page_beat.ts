// The page's own clock and visibility, for the feeds.
import type { Beat } from './feed.ts'

export function pageBeat(page: Document = document): Beat {
  return {
    now: () => Date.now(),
    after(ms, run) {
      const timer = setTimeout(run, ms)
      return () => clearTimeout(timer)
    },
    isSeen: () => page.visibilityState === 'visible',
    onSeen(run) {
      page.addEventListener('visibilitychange', run)
      return () => page.removeEventListener('visibilitychange', run)
    },
  }
}
