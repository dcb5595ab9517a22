// Asks one route again and again while the page is seen, and keeps what was heard last when the office is silent.
import { type ReadonlySignal, signal } from '@preact/signals'
import type { Answer, Refusal } from './answer.ts'

/** Time and visibility, given from outside so that tests need no clock. */
export type Beat = {
  now(): number
  after(ms: number, run: () => void): () => void
  isSeen(): boolean
  onSeen(run: () => void): () => void
}

/** `value` stays through silence; `silent_since_ms` says since when nobody answered. */
export type Seen<T> = {
  readonly value?: T
  readonly heard_ms?: number
  readonly silent_since_ms?: number
  readonly refusal?: Refusal
}

export type Feed<T> = {
  readonly seen: ReadonlySignal<Seen<T>>
  refresh(): Promise<void>
  stop(): void
}

/** What is shown after an answer, given what was shown before it. */
export function afterAnswer<T>(before: Seen<T>, answer: Answer<T>, now_ms: number): Seen<T> {
  if (answer.kind === 'value') return { value: answer.value, heard_ms: now_ms }
  if (answer.kind === 'cancelled') return before
  const kept: Seen<T> = {
    ...(before.value === undefined ? {} : { value: before.value }),
    ...(before.heard_ms === undefined ? {} : { heard_ms: before.heard_ms }),
  }
  if (answer.kind === 'refused') return { ...kept, refusal: answer.refusal }
  return { ...kept, silent_since_ms: before.silent_since_ms ?? before.heard_ms ?? now_ms }
}

/**
 * Starts at once, then every `every_ms`; 0 asks only on `refresh` and on return to the page. `before` is what an
 * earlier feed of the same route has shown: it stands until the answer is there.
 */
export function openFeed<T>(
  load: () => Promise<Answer<T>>,
  every_ms: number,
  beat: Beat,
  before: Seen<T> = {},
): Feed<T> {
  const seen = signal<Seen<T>>(before)
  let cancelTimer = (): void => {}
  let stopped = false
  let running: Promise<void> | undefined

  const ask = async (): Promise<void> => {
    const answer = await load()
    if (stopped) return
    seen.value = afterAnswer(seen.value, answer, beat.now())
    cancelTimer()
    if (every_ms > 0) cancelTimer = beat.after(every_ms, tick)
  }
  const refresh = async (): Promise<void> => {
    const mine = (running ?? Promise.resolve()).then(ask)
    running = mine
    await mine
    if (running === mine) running = undefined
  }
  const tick = (): void => {
    if (beat.isSeen() && running === undefined) void refresh()
  }
  const forget = beat.onSeen(tick)
  void refresh()
  return {
    seen,
    refresh,
    stop() {
      stopped = true
      cancelTimer()
      forget()
    },
  }
}
