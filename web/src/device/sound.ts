/** Sound and vibration of the calls: armed by a finished tap, rehearsed by ear, shown as it stands. */
import type { Signal } from '@preact/signals'
import { CALLS, type CallShape } from './calls.ts'
import type { Call, Sound, SoundView } from './types.ts'

type AudioSession = { type: string }

/** How it stands is told by the signal that it is given. */
export function pageSound(view: Signal<SoundView>, now_ms: () => number = () => performance.now()): Sound {
  const canVibrate = typeof navigator.vibrate === 'function'
  let audio: AudioContext | undefined
  let silentUntil_ms = 0

  const play = (call: Call) => {
    const shape = CALLS[call]
    if (audio?.state === 'running') sound(audio, shape)
    if (canVibrate) shake(shape.shake_ms)
  }
  const arm = async () => {
    audio ??= armed((state) => {
      if (state !== 'running' && view.value !== 'not_armed') view.value = 'interrupted'
    })
    await audio.resume()
    view.value = audio.state === 'running' ? 'unknown' : 'not_armed'
  }
  return {
    view,
    canVibrate,
    async rehearse() {
      if (view.value !== 'not_available') await arm()
      play('due')
    },
    heard(yes) {
      view.value = yes ? 'heard' : 'not_heard'
    },
    call(call) {
      if (now_ms() >= silentUntil_ms) play(call)
    },
    silence(for_ms) {
      silentUntil_ms = now_ms() + for_ms
      if (canVibrate) shake([0])
    },
  }
}

/** A page that nobody has touched since it was loaded may not shake the phone; the browser would complain of the try. */
function shake(ms: readonly number[]): void {
  if (navigator.userActivation?.hasBeenActive !== false) navigator.vibrate([...ms])
}

/** A context that sounds although the ring switch is off, where the system lets a page ask for that. */
function armed(changed: (state: string) => void): AudioContext {
  const session = (navigator as Navigator & { audioSession?: AudioSession }).audioSession
  if (session !== undefined) session.type = 'playback'
  const audio = new AudioContext()
  audio.addEventListener('statechange', () => changed(audio.state))
  return audio
}

function sound(audio: AudioContext, { notes, note_ms, gain }: CallShape): void {
  notes.forEach((hertz, i) => {
    const from_s = audio.currentTime + (i * note_ms) / 1_000
    const until_s = from_s + note_ms / 1_000
    const [tone, volume] = [audio.createOscillator(), audio.createGain()]
    tone.type = 'triangle'
    tone.frequency.value = hertz
    // Short ramps: a note that begins at full gain clicks.
    volume.gain.setValueAtTime(0, from_s)
    volume.gain.linearRampToValueAtTime(gain, from_s + 0.01)
    volume.gain.setValueAtTime(gain, until_s - 0.02)
    volume.gain.linearRampToValueAtTime(0, until_s)
    tone.connect(volume).connect(audio.destination)
    tone.start(from_s)
    tone.stop(until_s)
  })
}
