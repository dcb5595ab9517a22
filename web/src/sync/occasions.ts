/** When a sync is worth trying: at start, on return, online, and every 20 s while the app is seen. */

export type Occasion = 'start' | 'return' | 'online' | 'beat'

export interface Occasions {
  /** Calls `due` at every occasion until the returned function is called. */
  begin(due: (occasion: Occasion) => void): () => void
  /** Runs `then` once after `ms`; returns what calls it off. */
  later(then: () => void, ms: number): () => void
}

const BEAT_MS = 20_000

export function browserOccasions(): Occasions {
  return {
    begin(due) {
      const ended = new AbortController()
      const { signal } = ended
      const seen = () => document.visibilityState === 'visible'
      document.addEventListener('visibilitychange', () => seen() && due('return'), { signal })
      addEventListener('online', () => due('online'), { signal })
      const beat = setInterval(() => seen() && due('beat'), BEAT_MS)
      due('start')
      return () => {
        ended.abort()
        clearInterval(beat)
      }
    },
    later(then, ms) {
      const timer = setTimeout(then, ms)
      return () => clearTimeout(timer)
    },
  }
}
