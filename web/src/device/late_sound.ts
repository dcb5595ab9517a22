/** The sound's state at once; what sounds comes with the first call, or when a page looks at the state. */
import { type Signal, signal } from '@preact/signals'
import type { Sound, SoundView } from './types.ts'

export function lateSound(): Sound {
  const view: Signal<SoundView> = signal('AudioContext' in globalThis ? 'not_armed' : 'not_available')
  let made: Sound | undefined
  let coming: Promise<void> | undefined
  const fetchIt = () => {
    coming ??= import('./sound.ts').then(
      ({ pageSound }) => {
        made = pageSound(view)
      },
      () => {
        coming = undefined // that part never came to this phone: it is asked for again
      },
    )
    return coming
  }
  const later = (act: (sound: Sound) => unknown) => {
    if (made !== undefined) return act(made)
    return fetchIt().then(() => made && act(made))
  }
  return {
    get view() {
      void fetchIt() // whoever shows it may want to rehearse, and only a tap itself may arm the sound
      return view
    },
    canVibrate: typeof navigator.vibrate === 'function',
    rehearse: async () => void (await later((sound) => sound.rehearse())),
    heard: (yes) => void later((sound) => sound.heard(yes)),
    call: (call) => void later((sound) => sound.call(call)),
    silence: (for_ms) => void later((sound) => sound.silence(for_ms)),
  }
}
