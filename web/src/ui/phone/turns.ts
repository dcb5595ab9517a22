// What comes twice or at once: a glove's bounce is one press, and refreshes are made one after the other.
import type { Drafting } from '../../store/types.ts'

/** The same press of a bouncing glove: equal but for its time. */
export function glovePress(job: string, drafts: readonly Drafting[]): string {
  const untimed = (key: string, value: unknown) => (key === 'run_ms' || key === 'points' ? '' : value)
  return job + JSON.stringify(drafts, untimed)
}

/** A press that comes again while the first is kept, or right after, is the first. */
export function oncePer<T>(after_ms: number): (key: string, write: () => Promise<T>) => Promise<T> {
  const running = new Map<string, Promise<T>>()
  return (key, write) => {
    const first = running.get(key)
    if (first !== undefined) return first
    const written = write().finally(() => setTimeout(() => running.delete(key), after_ms))
    running.set(key, written)
    return written
  }
}

type Turns = {
  /** One refresh at a time, and none for nothing: calls that come meanwhile share the next one. */
  take(job: string): Promise<void>
  /** When all that was taken so far is through. */
  settled(): Promise<void>
}

export function inTurn(refresh: (job: string) => Promise<void>): Turns {
  let running: Promise<void> = Promise.resolve()
  let next: { jobs: Set<string>; done: Promise<void> } | undefined
  return {
    take: (job) => {
      if (next !== undefined) {
        next.jobs.add(job)
        return next.done
      }
      const jobs = new Set([job])
      const done = running.then(() => {
        next = undefined
        running = refresh(jobs.size === 1 ? job : '')
        return running
      })
      next = { jobs, done }
      return done
    },
    settled: () => next?.done ?? running,
  }
}
