/** The heartbeat of this page: reads both clocks each second, and before every entry. */
import { signal } from '@preact/signals'
import { beat, type ClockChange, type ClockState, startClock } from '../core/run_clock.ts'
import { heardServer } from '../core/run_clock_heard.ts'
import { platformReading } from '../store/platform_clock.ts'
import type { ClockReading } from '../store/types.ts'
import type { DeviceClock } from './types.ts'

const BEAT_MS = 1_000
const SAVE_EVERY_BEATS = 2

/** What the clock needs of the page; a test passes its own. */
export interface Page {
  read(): ClockReading
  isSeen(): boolean
  /** Calls `changed` when the page is hidden or seen again. */
  onSeen(changed: () => void): () => void
  every(beat: () => void, ms: number): () => void
}

export type ClockOptions = {
  readonly saved: ClockState | undefined
  readonly save: (state: ClockState) => unknown
  readonly page?: Page
}

export function startDeviceClock({ saved, save, page = browserPage() }: ClockOptions): DeviceClock {
  const begun = startClock(saved, page.read())
  const state = signal(begun.state)
  const listeners = new Set<(change: ClockChange) => void>()
  // What was found at the start is told to the first who listens: nobody can before.
  let untold = begun.change
  let unseen = !page.isSeen()
  let beats = 0

  const keep = (next: ClockState, change?: ClockChange) => {
    state.value = next
    if (change === undefined) return
    save(next)
    for (const listener of listeners) listener(change)
  }
  const take = (): ClockReading => {
    const reading = page.read()
    const next = beat(state.value, reading, unseen)
    unseen = !page.isSeen()
    keep(next.state, next.change)
    return reading
  }
  /** What stamps an entry is no beat that is saved: somebody waits for the entry. */
  const onBeat = () => {
    take()
    beats += 1
    if (beats % SAVE_EVERY_BEATS === 0) save(state.value)
  }
  const ends = [page.every(onBeat, BEAT_MS), page.onSeen(onBeat)]
  save(begun.state)
  return {
    now: () => page.read(),
    stamp: take,
    state,
    heardServer: (at, server_ms, within_ms) => {
      // A beat first: a clock set since the last one must not be taken for the server's word.
      const reading = take()
      keep(heardServer(state.value, reading, server_ms + reading.mono_ms - at.mono_ms, within_ms))
    },
    onChanged: (changed) => {
      listeners.add(changed)
      if (untold !== undefined) changed(untold)
      untold = undefined
      return () => listeners.delete(changed)
    },
    stop: () => {
      for (const end of ends) end()
    },
  }
}

export function browserPage(): Page {
  return {
    read: platformReading,
    isSeen: () => document.visibilityState === 'visible',
    onSeen: (changed) => {
      document.addEventListener('visibilitychange', changed)
      return () => document.removeEventListener('visibilitychange', changed)
    },
    every: (tick, ms) => {
      const timer = setInterval(tick, ms)
      return () => clearInterval(timer)
    },
  }
}
