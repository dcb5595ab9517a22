// The sensors of a run as last read: what each is on, leading and lagging, and how far from its limit, in words.
import type { JSX } from 'preact'
import type { SensorOf } from '../../core/method.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import type { SensorView } from '../../core/views/run_sensors.ts'
import { Mark } from '../parts/mark.tsx'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { capital, duration, quantity, scaled, unitName } from '../words/format.ts'
import { rateText } from './run_alarm_lines.tsx'

export function Sensors({ view, elapsed_ms }: { view: RunView; elapsed_ms: number }): JSX.Element {
  return (
    <dl class="sensors">
      {view.sensors.map((sensor) => (
        <SensorCell key={sensor.id} view={view} sensor={sensor} elapsed_ms={elapsed_ms} />
      ))}
    </dl>
  )
}

type CellProps = { view: RunView; sensor: SensorView; elapsed_ms: number }

function SensorCell({ view, sensor, elapsed_ms }: CellProps): JSX.Element {
  const { decimals, sensors_unit, gap_max_s } = view.ask.settings
  const { value, run_ms, rate } = sensor
  const what = sensor.of === 'bond' ? sensor.is : sensor.of
  const ago_ms = run_ms === undefined || view.phase === 'over' ? 0 : elapsed_ms - run_ms
  const stands = value === undefined ? undefined : standsOf(view, sensor, value)
  return (
    <div class={stands?.beyond ? 'in-stop' : ''}>
      <dt title={sensor.name}>
        <SensorShape of={sensor.of} is={sensor.is} />
        {capital(heatWords.sensorName(sensor.id))}
      </dt>
      <dd>
        {value === undefined ? (
          <span class="label">{runWords.noReading}</span>
        ) : (
          <>
            <span class="num">{scaled(value, decimals)}</span>{' '}
            <span class="label">{unitName(sensors_unit)}</span>
          </>
        )}
        {what !== '' && <small class="sensor-is">{runWords.is[what]}</small>}
        {stands && (
          <small class={stands.beyond ? 'sensor-beyond' : ''}>
            {stands.beyond && <Mark name="finding" />}
            {stands.words}
          </small>
        )}
        {rate !== undefined && sensor.of === 'bond' && <small class="soft">{signed(rate, decimals)}</small>}
        {ago_ms > gap_max_s * 500 && <small class="soft">{runWords.ago(duration(ago_ms))}</small>}
      </dd>
    </div>
  )
}

function signed(rate: number, decimals: number): string {
  return `${rate > 0 ? '+' : ''}${rateText(rate, decimals)}`
}

type Stands = { readonly words: string; readonly beyond: boolean }

/** The lagging one stands against the minimum, every other against the maximum of what it is on. */
function standsOf({ ask, phase }: RunView, sensor: SensorView, value: number): Stands | undefined {
  const { lagging_min, decimals } = ask.settings
  const by = (n: number) => quantity(Math.abs(n), decimals, 'K')
  const words = runWords.against
  if (sensor.over !== undefined && sensor.over > 0)
    return { words: words.over(by(sensor.over)), beyond: true }
  const heats = phase === 'ramp' || phase === 'soak' || phase === 'workable'
  if (sensor.is === 'lagging' && heats) {
    const above = value - lagging_min
    if (above >= 0) return { words: words.above(by(above)), beyond: false }
    return { words: words.below(by(above)), beyond: phase !== 'ramp' }
  }
  const cools = phase === 'cooling' || phase === 'over' || phase === 'aborted'
  return cools || sensor.over === undefined || (sensor.of === 'bond' && sensor.is !== 'leading')
    ? undefined
    : { words: words.under(by(sensor.over)), beyond: false }
}

/** The shapes of the chart: down lagging, up leading; square metal, diamond neighbour; round between. */
export function SensorShape({ of, is }: { of: SensorOf; is: SensorView['is'] }): JSX.Element {
  const d = is === 'lagging' ? 'M3 6h18l-9 14z' : is === 'leading' ? 'M3 19h18L12 5z' : SHAPE[of]
  return (
    <svg class="mark sensor-shape" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path d={d} fill={is === '' ? 'none' : 'currentColor'} stroke="currentColor" stroke-width="2.4" />
    </svg>
  )
}

const SHAPE: { readonly [Of in SensorOf]: string } = {
  bond: 'M12 4a8 8 0 1 0 .01 0z',
  metal: 'M5 5h14v14H5z',
  neighbour: 'M12 2.5 21.5 12 12 21.5 2.5 12z',
}
