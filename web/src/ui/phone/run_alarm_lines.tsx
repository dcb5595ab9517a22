// What the readings say that somebody must hear, in words; the shape is the finding's, the sound is the page's.
import type { JSX } from 'preact'
import { type RunView, silentOf } from '../../core/views/heat_view.ts'
import type { RunAlarm } from '../../core/views/run_alarms.ts'
import { Key } from '../parts/key.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { capital, countdown, listed, quantity, scaled } from '../words/format.ts'

type Props = { view: RunView; elapsed_ms: number; onSayPad?: (() => void) | undefined }

export function RunAlarmLines({ view, elapsed_ms, onSayPad }: Props): JSX.Element {
  const silent = silentOf(view, elapsed_ms).map(({ id }) => heatWords.sensorName(id))
  const asks = view.alarms.some(({ code }) => code === 'behind')
  return (
    <div class="run-alarms">
      {view.alarms.map((alarm) => (
        <StateWord key={keyOf(alarm)} state="finding" word={alarmWords(view, alarm)} />
      ))}
      {asks && onSayPad && <Key onPress={onSayPad}>{runWords.sayPad}</Key>}
      {silent.length > 0 && <StateWord state="finding" word={runWords.alarm.silent(listed(silent))} />}
    </div>
  )
}

function keyOf(alarm: RunAlarm): string {
  return `${alarm.code}${'sensor' in alarm ? alarm.sensor : ''}`
}

export function rateText(rate: number, decimals: number): string {
  return quantity(Math.round(rate * 10), decimals + 1, runWords.perMinute)
}

export function alarmWords(view: RunView, alarm: RunAlarm): string {
  const { decimals, sensors_unit } = view.ask.settings
  const kelvin = (by: number) => quantity(by, decimals, 'K')
  const words = runWords.alarm
  if (alarm.code === 'power') return words.power(countdown(alarm.since_ms))
  const sensor = capital(heatWords.sensorName(alarm.sensor))
  switch (alarm.code) {
    case 'over':
      return runWords.over[alarm.of](alarm.of === 'bond' ? sensor : sensor.toLowerCase(), kelvin(alarm.by))
    case 'ramp':
    case 'cooling':
      return words[alarm.code](sensor, rateText(alarm.rate, decimals), rateText(alarm.limit, decimals))
    case 'jump':
      return words.jump(sensor, scaled(alarm.from, decimals), quantity(alarm.to, decimals, sensors_unit))
    case 'contact':
      return words.contact(listed(alarm.pads), heatWords.sensorName(alarm.sensor), kelvin(alarm.by))
    case 'behind':
      return words.behind(sensor, kelvin(alarm.by))
  }
}
