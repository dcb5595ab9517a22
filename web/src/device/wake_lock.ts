/** The screen's wake lock: asked for again on each return, shown as it is. */
import { signal } from '@preact/signals'
import type { WakeLock, WakeLockView } from './types.ts'

export function screenWakeLock(): WakeLock {
  const available = 'wakeLock' in navigator
  const view = signal<WakeLockView>(available ? 'not_held' : 'not_available')
  let wanted = false
  let held: WakeLockSentinel | undefined

  const ask = async () => {
    if (!available || !wanted || held !== undefined || document.visibilityState !== 'visible') return
    try {
      const lock = await navigator.wakeLock.request('screen')
      held = lock
      view.value = 'held'
      lock.addEventListener('release', () => {
        held = undefined
        view.value = 'not_held'
      })
      if (!wanted) await lock.release()
    } catch {
      view.value = 'not_held' // refused by the system, on low battery for one: the screen says 'not held'
    }
  }
  document.addEventListener('visibilitychange', () => void ask())
  return {
    view,
    hold: () => {
      wanted = true
      return ask()
    },
    release: () => {
      wanted = false
      void held?.release()
    },
  }
}
