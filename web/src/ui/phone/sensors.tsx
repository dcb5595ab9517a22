// The sensors of a run as last read: leading and lagging in words, and how long ago.
import type { JSX } from 'preact'
import type { RunView } from '../../core/views/heat_view.ts'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { capital, duration, scaled, unitName } from '../words/format.ts'

export function Sensors({ view, elapsed_ms }: { view: RunView; elapsed_ms: number }): JSX.Element {
  const { decimals, sensors_unit } = view.ask.settings
  return (
    <dl class="sensors">
      {view.sensors.map((sensor) => (
        <div key={sensor.id}>
          <dt title={sensor.name}>{capital(heatWords.sensorName(sensor.id))}</dt>
          <dd>
            {sensor.value === undefined ? (
              <span class="label">{runWords.noReading}</span>
            ) : (
              <>
                <span class="num">{scaled(sensor.value, decimals)}</span>{' '}
                <span class="label">{unitName(sensors_unit)}</span>
              </>
            )}
            {sensor.is !== '' && <small>{runWords[sensor.is]}</small>}
            {sensor.run_ms !== undefined && (
              <small class="soft">{runWords.ago(duration(Math.max(0, elapsed_ms - sensor.run_ms)))}</small>
            )}
          </dd>
        </div>
      ))}
    </dl>
  )
}
