// What will call the person on this phone and what will not, with the reason; and the rehearsal by ear.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { Device } from '../../device/types.ts'
import { Key } from '../parts/key.tsx'
import { w } from '../words/en.ts'
import { runWords } from '../words/en_run.ts'
import { usePhone } from './context.ts'

export type ArmedView = { readonly armed: readonly string[]; readonly not: readonly string[] }

/** `called`: this phone has chosen to be called for heat runs while the app is closed. */
export function armedOf(device: Pick<Device, 'sound' | 'wakeLock' | 'notices'>, called = false): ArmedView {
  const why = runWords.notArmedWhy
  const armed: string[] = []
  const not: string[] = []
  const sound = device.sound.view.value
  if (sound === 'heard') armed.push(runWords.armedBy.sound)
  else not.push(why[`sound_${sound}`])
  if (device.sound.canVibrate) armed.push(runWords.armedBy.vibration)
  else not.push(why.vibration)
  const wake = device.wakeLock.view.value
  if (wake === 'held') armed.push(runWords.armedBy.wakeLock)
  else not.push(wake === 'not_held' ? why.wake_not_held : why.wake_not_available)
  if (device.notices.view.value !== 'granted') not.push(why.notice)
  else if (!called) not.push(why.notice_not_chosen)
  else armed.push(runWords.armedBy.notification)
  return { armed, not }
}

/** `keys`: with the way to arm the sound again, where it is not. */
export function Armed({ keys = false }: { keys?: boolean }): JSX.Element {
  const { services } = usePhone()
  const called = useCalled()
  const { armed, not } = armedOf(services.device, called)
  return (
    <div class="armed-block">
      <dl class="armed">
        <dt>{runWords.armed}</dt>
        <dd>{armed.length > 0 ? armed.join(', ') : runWords.nothingArmed}</dd>
        <dt class="in-stop">{runWords.notArmed}</dt>
        <dd>{not.length > 0 ? not.join('; ') : w.common.none}</dd>
      </dl>
      <p class="label">{runWords.lockWarning}</p>
      {keys && services.device.sound.view.value !== 'heard' && <AlarmTest />}
    </div>
  )
}

function useCalled(): boolean {
  const { store } = usePhone().services
  const [called, setCalled] = useState(false)
  useEffect(() => {
    void store.setting('called_for_runs').then((kept) => setCalled(kept === true))
  }, [store])
  return called
}

/** Plays 'due' once on a finished tap, and asks whether it was heard: only an ear can tell. */
export function AlarmTest(): JSX.Element {
  const { sound } = usePhone().services.device
  if (sound.view.value === 'unknown') {
    return (
      <div class="asked">
        <p>
          <strong>{runWords.didYouHear}</strong>
        </p>
        <Key onPress={() => sound.heard(true)}>{runWords.heardIt}</Key>
        <Key onPress={() => sound.heard(false)}>{runWords.notHeard}</Key>
      </div>
    )
  }
  return (
    <Key mark="sound" onPress={() => void sound.rehearse()}>
      {runWords.testAlarm}
    </Key>
  )
}
