// What the pinned plan says of a run: when workable, or what the readings look like; what it rests on one tap away.
import type { JSX } from 'preact'
import type { ResponseDoc } from '../../core/live/response_set.ts'
import type { Card } from '../../core/views/card.ts'
import { type Minutes, type Times, type Told, toldOf } from '../../core/views/forecast_told.ts'
import type { LiveForecast } from '../../core/views/forecast_view.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { Key } from '../parts/key.tsx'
import { Facts } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { forecastWords as words } from '../words/en_forecast.ts'
import { capital, clockTime, duration, quantity, scaled } from '../words/format.ts'
import { PlanLayoutPart } from './plan_layout.tsx'
import './forecast.css'

type Props = {
  card: Card
  view: RunView
  elapsed_ms: number
  /** Records that a sensor was fastened again; absent for a reader. */
  onMended: ((sensor: string) => void) | undefined
}

const HEATS: readonly RunView['phase'][] = ['ramp', 'soak', 'workable']

/** While the pads heat; the plan's release has its own part. */
export function ForecastPart({ card, view, elapsed_ms, onMended }: Props): JSX.Element | null {
  if (!HEATS.includes(view.phase)) return null
  const told = toldOf(card, view, elapsed_ms)
  if (told.is === 'unread' || (told.is === 'none' && view.ask.purpose === 'cure')) return null
  const set = view.plan?.set
  return (
    <section class="forecast" aria-label={words.head}>
      {told.is === 'not_here' && <p>{view.plan?.sentence}</p>}
      <Statement told={told} on_ms={view.on.entry.at_ms} onMended={onMended} />
      {set && view.forecast && <Rests set={set} forecast={view.forecast} on_ms={view.on.entry.at_ms} />}
    </section>
  )
}

type StatementProps = { told: Told; on_ms: number; onMended: Props['onMended'] }

function Statement({ told, on_ms, onMended }: StatementProps): JSX.Element | null {
  switch (told.is) {
    case 'unread':
      return null
    case 'none':
      return <p class="soft">{words.none}</p>
    case 'not_here':
      return <StateWord state="waits" word={words.notHere} />
    case 'newer':
      return <StateWord state="finding" word={words.newer} />
    case 'power':
      return <StateWord state="finding" word={words.powerGone(clockTime(on_ms + told.gone_ms))} />
    case 'never':
      return (
        <div class="forecast-looks">
          <StateWord state="finding" word={words.notWorkable} />
          <p>{words.notWorkableDo}</p>
        </div>
      )
    case 'looks':
      return <Looks told={told} onMended={onMended} />
    case 'planned':
      return <Workable head={words.planned(`${told.minutes.left}\u00a0min`, band(told.minutes))} />
    case 'in':
      return (
        <Workable
          head={words.workableIn(`${told.minutes.left}\u00a0min`, band(told.minutes))}
          times={told.times}
          on_ms={on_ms}
        />
      )
    case 'now':
      return <Workable head={words.now} more={words.nowProof} times={told.times} on_ms={on_ms} />
  }
}

function band({ from, until }: Minutes): string {
  return words.band(String(from), until === undefined ? words.never : String(until))
}

type WorkableProps = { head: string; more?: string; times?: Times; on_ms?: number }

function Workable({ head, more, times, on_ms = 0 }: WorkableProps): JSX.Element {
  return (
    <>
      <p class="forecast-head">{head}</p>
      {more !== undefined && <p>{more}</p>}
      {more === undefined && times && <p>{around(times, on_ms)}</p>}
      {times && <PadsOn times={times} on_ms={on_ms} />}
    </>
  )
}

function PadsOn({ times: { pads_on_ms, window_ms }, on_ms }: { times: Times; on_ms: number }) {
  if (pads_on_ms === undefined) return null
  const padsOn = clockTime(on_ms + pads_on_ms)
  return (
    <p>
      {window_ms === undefined ? words.padsOn(padsOn) : words.window(padsOn, clockTime(on_ms + window_ms))}
    </p>
  )
}

function around({ workable_ms, from_ms, until_ms }: Times, on_ms: number): string {
  const at = (run_ms: number) => clockTime(on_ms + run_ms)
  return until_ms === undefined
    ? words.aroundOpen(at(workable_ms), at(from_ms))
    : words.around(at(workable_ms), at(from_ms), at(until_ms))
}

type LooksProps = { told: Extract<Told, { is: 'looks' }>; onMended: Props['onMended'] }

/** What it seems to be, what to do, and the key that says it is done. */
function Looks({ told: { looks_like, names, minutes }, onMended }: LooksProps): JSX.Element {
  const { is, what } = words.looks[looks_like]
  return (
    <div class="forecast-looks" role="status">
      <StateWord state="finding" word={is(names)} />
      <p>{what}</p>
      {minutes && (
        <p>
          {words.without(names)}{' '}
          <strong>{words.workableIn(`${minutes.left}\u00a0min`, band(minutes))}</strong>
        </p>
      )}
      {onMended && looks_like === 'sensor_off' && (
        <Key onPress={() => onMended(names)}>{words.sensorFixed(names)}</Key>
      )}
    </div>
  )
}

type RestsProps = { set: ResponseDoc; forecast: LiveForecast; on_ms: number }

/** Model, inputs and band, and where everything should lie. */
function Rests({ set, forecast, on_ms }: RestsProps): JSX.Element {
  const { counted, since_ms } = forecast
  return (
    <>
      <p class="label soft">
        {words.from(counted)}
        {since_ms > 0 && ` ${words.sincePressed(clockTime(on_ms + since_ms))}`} {w.common.advice}
      </p>
      <details class="forecast-rests">
        <summary>{words.rests}</summary>
        <PlanFacts set={set} forecast={forecast} />
        <PlanLayoutPart set={set} />
      </details>
    </>
  )
}

const tenths = (dC: number) => quantity(Math.round(dC / 10), 0, 'C')
const between = ([low, high]: readonly [number, number]) =>
  words.band(scaled(Math.round(low / 10), 0), tenths(high))
const times = (factor: number) => scaled(Math.round(factor * 100), 2)

/** `forecast` is absent before switch-on. */
export function PlanFacts({ set, forecast }: { set: ResponseDoc; forecast?: LiveForecast }): JSX.Element {
  const { answer } = set
  const fitted = forecast !== undefined && forecast.counted > 0 ? forecast.fit : undefined
  return (
    <Facts
      rows={[
        [words.fact.plan, set.invented ? words.invented(capital(set.name)) : capital(set.name)],
        [words.fact.answer, answer.sentence],
        [words.fact.workable, words.workableFrom(tenths(set.workable_dC))],
        ...(answer.feasible ? [] : [[words.fact.limits, answer.troubles.join('; ')] as const]),
        ...(answer.mended_by === '' ? [] : [[words.fact.mend, capital(answer.mended_by)] as const]),
        [words.fact.contact, fitted ? words.timesPlanned(times(fitted.contact)) : words.asPlanned],
        [words.fact.loss, fitted ? words.timesPlanned(times(fitted.loss)) : words.asPlanned],
        ...(fitted
          ? [[words.fact.misfit, words.misfitBy(quantity(Math.round(fitted.misfit_K * 10), 1, 'K'))] as const]
          : []),
        [words.fact.peak, words.peaks(between(answer.bond_peak_dC), between(answer.metal_peak_dC))],
        ...(answer.touch_s === null
          ? []
          : [[words.fact.touch, words.touch(answer.touch_for, duration(answer.touch_s * 1000))] as const]),
        [words.fact.model, `${set.model}, ${words.zoneDigest(set.digest.slice(0, 8))}`],
      ]}
    />
  )
}
