// The readings of a run: one sensor after another, all of one moment, since the soak counts whole moments.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { Card } from '../../core/views/card.ts'
import { type RunTime, runReading } from '../../core/views/drafts.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { isJump } from '../../core/views/run_alarms.ts'
import type { SensorView } from '../../core/views/run_sensors.ts'
import { BigNumber } from '../parts/big_number.tsx'
import { Key } from '../parts/key.tsx'
import { Keypad } from '../parts/keypad.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { Scale } from '../parts/scale.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { runWords } from '../words/en_run.ts'
import { capital, quantity, scaled, unitName } from '../words/format.ts'
import { typedValue } from '../words/typed.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { go, paths } from './router.ts'
import { useLateTime } from './run_acts.tsx'
import { elapsedSince, runTimeNow } from './run_clock_hook.ts'

/** A moment that was begun longer ago than this is not gone on with. */
const ROUND_MS = 120_000

type ReadingsProps = { card: Card; view: RunView }

export function RunReadings({ card, view }: ReadingsProps): JSX.Element | null {
  const { services } = usePhone()
  const [round, setRound] = useState(() => openRoundOf(view, services))
  const missing = round?.missing ?? view.sensors.map((sensor) => sensor.id)
  const sensor = view.sensors.find((one) => one.id === missing[0])
  const back = paths.run(card.job, view.run.run)
  if (sensor === undefined) return null
  const recorded = ({ run_ms, typed_time }: RunTime) => {
    const rest = missing.slice(1)
    if (rest.length === 0) go(back, 'replace')
    else setRound({ run_ms, typed_time, missing: rest })
  }
  return (
    <OneSensor
      key={sensor.id}
      card={card}
      view={view}
      sensor={sensor}
      round={round}
      back={back}
      onRecorded={recorded}
    />
  )
}

/** One moment of readings: when it was, whether its minute was typed, and which sensors are still to be read. */
type Round = Pick<RunTime, 'run_ms' | 'typed_time'> & { readonly missing: readonly string[] }

function openRoundOf(view: RunView, services: Parameters<typeof elapsedSince>[0]): Round | undefined {
  if (view.round === undefined) return undefined
  const { elapsed_ms } = elapsedSince(services, view.on)
  return elapsed_ms - view.round.run_ms < ROUND_MS ? { ...view.round, typed_time: false } : undefined
}

type SensorProps = {
  card: Card
  view: RunView
  sensor: SensorView
  round: Round | undefined
  back: string
  onRecorded: (at: RunTime) => void
}

function OneSensor({ card, view, sensor, round, back, onRecorded }: SensorProps): JSX.Element {
  const { record, services } = usePhone()
  const [typed, setTyped] = useState('')
  // What no joint can do is asked about once: a digit slipped, or the sensor came off.
  const [asked, setAsked] = useState<number | undefined>()
  const late = useLateTime()
  const { settings } = view.ask
  const amount = typedValue(typed, settings.decimals)
  const write = async () => {
    if (amount === undefined) return
    const now = late.time ?? runTimeNow(services, view)
    const at = round === undefined ? now : { ...now, run_ms: round.run_ms, typed_time: round.typed_time }
    if (asked !== amount && jumps(sensor, amount, at.run_ms, settings.decimals)) return setAsked(amount)
    if (await record(card.job, [runReading(view.run.run, sensor.id, amount, view.ask, at)])) onRecorded(at)
  }
  const index = view.sensors.indexOf(sensor)
  return (
    <Frame
      act={`${view.run.run}/readings/${sensor.id}`}
      card={card}
      place={view.place}
      back={back}
      foot={
        <>
          <Keypad
            onTyped={setTyped}
            decimals={settings.decimals > 0}
            negative={false}
            onEnter={() => void write()}
          />
          <Key tone="main" waiting={amount === undefined} onPress={() => void write()}>
            {amount === undefined
              ? w.common.record
              : asked === amount
                ? runWords.itIsSo
                : askWords.reading.record(quantity(amount, settings.decimals, settings.sensors_unit))}
          </Key>
        </>
      }
    >
      <Leaf plain>
        <p class="stage">{capital(sensor.name)}</p>
        <h1 class="act-small close" tabIndex={-1}>
          {runWords.sensor(sensor.id, index + 1, view.sensors.length)}
        </h1>
        <div class="read-field">
          <BigNumber
            text={typed || '–'}
            unit={unitName(settings.sensors_unit)}
            label={typed || askWords.reading.none}
          />
          {sensor.value !== undefined && (
            <p class="read-before">
              <span class="soft">{runWords.beforeValue}</span>{' '}
              <span class="num">{scaled(sensor.value, settings.decimals)}</span>
            </p>
          )}
        </div>
        {asked !== undefined && asked === amount && sensor.value !== undefined ? (
          <StateWord
            state="finding"
            word={runWords.implausible(
              scaled(sensor.value, settings.decimals),
              quantity(amount, settings.decimals, settings.sensors_unit),
            )}
          />
        ) : (
          <SensorVerdict view={view} sensor={sensor} amount={amount} />
        )}
        <Scale
          min={sensor.of === 'bond' ? settings.lagging_min : undefined}
          max={sensor.max}
          value={amount}
          decimals={settings.decimals}
        />
        {round === undefined && late.field}
      </Leaf>
    </Frame>
  )
}

function jumps({ value, run_ms }: SensorView, amount: number, at_ms: number, decimals: number): boolean {
  return value !== undefined && run_ms !== undefined && isJump(value, amount, at_ms - run_ms, decimals)
}

type VerdictProps = { view: RunView; sensor: SensorView; amount: number | undefined }

/** Against the limit of what this sensor is on; only a bond has a minimum. */
function SensorVerdict({ view, sensor, amount }: VerdictProps): JSX.Element {
  const { lagging_min, decimals } = view.ask.settings
  const { max, of } = sensor
  if (amount === undefined) return <p>{askWords.reading.type}</p>
  const by = (n: number) => quantity(n, decimals, 'K')
  if (max !== undefined && amount > max)
    return <StateWord state="finding" word={askWords.reading.above(by(amount - max))} />
  if (of !== 'bond') {
    return max === undefined ? (
      <p>{askWords.reading.noLimits}</p>
    ) : (
      <StateWord state="done" word={askWords.reading.under(by(max - amount))} />
    )
  }
  if (amount < lagging_min) return <p>{runWords.belowSoak(by(lagging_min - amount))}</p>
  return <StateWord state="done" word={askWords.reading.over(by(amount - lagging_min))} />
}
