// A heat run as one act: the big number to what comes next, what calls, sensors against limits, amber when due.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { sensorFixed } from '../../core/live/remarks.ts'
import { isAsked } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { heatAct } from '../../core/views/drafts.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { progressOf } from '../../core/views/run_progress.ts'
import { nextAct } from '../../core/views/statuses.ts'
import { HeatProfile } from '../parts/heat_profile.tsx'
import { Caution, Leaf } from '../parts/leaf.tsx'
import { Mark } from '../parts/mark.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { heldWords } from '../words/en_step.ts'
import { capital, clockTime, duration, quantity } from '../words/format.ts'
import { Armed } from './armed.tsx'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { phaseWords } from './heat_words.ts'
import { laterPart } from './later_part.tsx'
import { paths } from './router.ts'
import { ActsSheet, type SheetOf } from './run_acts.tsx'
import { RunAlarmLines } from './run_alarm_lines.tsx'
import { type LiveRun, liveRun, runTimeNow } from './run_clock_hook.ts'
import { RunFoot } from './run_foot.tsx'
import { RunHistory } from './run_history.tsx'
import { Doubt, RunNumber } from './run_number.tsx'
import { PadsNow } from './run_pads.tsx'
import { Sensors } from './sensors.tsx'
import './run.css'

const RunChartPart = laterPart(async () => (await import('./run_parts.tsx')).RunChartPart)
const ForecastPart = laterPart(async () => (await import('./run_parts.tsx')).ForecastPart)
const PlanRelease = laterPart(async () => (await import('./run_parts.tsx')).PlanRelease)
const RunVerdict = laterPart(async () => (await import('./run_parts.tsx')).RunVerdict)

type RunProps = { card: Card; view: RunView; reader: boolean; onGo: (path: string) => void }

export function RunScreen({ card, view, reader, onGo }: RunProps): JSX.Element {
  const { record, services } = usePhone()
  const [sheet, setSheet] = useState<SheetOf>('')
  const { run } = view.run
  const live = liveRun(services, view)
  useEffect(() => {
    if (view.phase !== 'over') void services.device.wakeLock.hold()
  }, [services, view.phase])
  const mended = (sensor: string) => {
    const text = sensorFixed(sensor)
    void record(card.job, [heatAct(run, 'remark', runTimeNow(services, view), { text })])
  }
  return (
    <Frame
      act={`${run}/${view.phase}/${view.next.act}/${view.next.pad}`}
      card={card}
      place={view.place}
      back={paths.step(card.job, view.place.method.id, view.place.step.id)}
      due={live.due?.due ?? false}
      foot={reader ? undefined : <RunFoot card={card} live={live} onGo={onGo} onSheet={setSheet} />}
    >
      <MeanwhileBand card={card} view={view} />
      <Leaf plain>
        <p class="stage">
          {capital(heatWords.title(view.zone.name))} ·{' '}
          {runWords.since(phaseWords(view), clockTime(view.on.entry.at_ms + view.phase_ms))}
        </p>
        <RunNumber live={live} />
        <RunBody
          card={card}
          live={live}
          onSayPad={reader ? undefined : () => setSheet('remark')}
          onMended={reader ? undefined : mended}
        />
      </Leaf>
      {sheet !== '' && (
        <ActsSheet card={card} view={view} of={sheet} onSheet={setSheet} onClose={() => setSheet('')} />
      )}
    </Frame>
  )
}

type BodyProps = {
  card: Card
  live: LiveRun
  onSayPad: (() => void) | undefined
  onMended: ((sensor: string) => void) | undefined
}

function RunBody({ card, live, onSayPad, onMended }: BodyProps): JSX.Element {
  const { view, elapsed } = live
  const { phase, next } = view
  const { elapsed_ms } = elapsed
  const over = phase === 'over'
  const isOwn = view.on.entry.device === usePhone().services.store.identity()?.device
  return (
    <>
      <RunAlarmLines view={view} elapsed_ms={elapsed_ms} onSayPad={onSayPad} />
      <ForecastPart card={card} view={view} elapsed_ms={elapsed_ms} onMended={onMended} />
      {next.pad !== '' && <PadAct card={card} view={view} />}
      <PlanRelease view={view} />
      {!over && elapsed.doubt !== 'none' && <Doubt of={elapsed.doubt} own={isOwn} />}
      {!over && <Armed keys />}
      <HeatProfile progress={progressOf(view, elapsed_ms)} />
      <SoakLine view={view} elapsed_ms={elapsed_ms} />
      <Sensors view={view} elapsed_ms={elapsed_ms} />
      <RunChartPart card={card} view={view} now_ms={elapsed_ms} />
      {(over || phase === 'aborted') && <RunVerdict card={card} view={view} />}
      <RunHistory card={card} view={view} />
    </>
  )
}

/** Which pad, where it lies, and what hands must know. */
function PadAct({ card, view }: { card: Card; view: RunView }): JSX.Element {
  const { next, run, ask } = view
  const { caution } = (releasedAt(card, view) ?? view.place).step
  const { lift_below, decimals, sensors_unit } = ask.settings
  const first = next.act === 'turn_down' && run.turned_down.length === 0
  return (
    <>
      {next.leads !== 'contact' && caution !== '' && <Caution>{caution}</Caution>}
      <PadsNow view={view} />
      {first && ask.purpose === 'removal' && <p>{runWords.firstStage}</p>}
      {next.act === 'turn_down' && !first && next.due_ms !== undefined && next.permille === undefined && (
        <p class="label soft">{runWords.stageBy}</p>
      )}
      {next.act === 'lift' && lift_below !== undefined && (
        <p>{runWords.liftBelow(quantity(lift_below, decimals, sensors_unit))}</p>
      )}
    </>
  )
}

/** The step that the run is released at, where that is not the one which began it: its caution is the one to read. */
function releasedAt(card: Card, { run }: RunView): StepPlace | undefined {
  return card.steps.find(({ step }) =>
    step.asks.some(
      (ask) =>
        ask.kind === 'heat_run' &&
        ask.continues?.step === run.step &&
        ask.continues.method === run.method &&
        ask.continues.ask === run.ask,
    ),
  )
}

/** The step that this run made free, done with the pads still on; or its own, when its part of the run is done. */
function MeanwhileBand({ card, view }: { card: Card; view: RunView }): JSX.Element | null {
  const { place } = view
  const next = nextAct(card)?.place
  if (view.phase === 'over') return null
  const asked = isAsked(card, place, view.ask)
  const own = place.state.done === '' && asked && !place.state.open.includes(view.ask.id)
  const to = own ? place : next
  if (to === undefined || (to === place && !own)) return null
  return (
    <a class="run-band" href={paths.step(card.job, to.method.id, to.step.id)}>
      <Mark name="next" />
      <span>
        <strong>{own ? runWords.closeStep(to.number) : heldWords.go(to.number)}</strong>
        <small>{to.step.title}</small>
      </span>
      <Mark name="onward" />
    </a>
  )
}

function SoakLine({ view, elapsed_ms }: { view: RunView; elapsed_ms: number }): JSX.Element | null {
  const { run, ask, soak_want_ms, short_by, phase, read_by_ms } = view
  const amount = (value: number) => quantity(value, ask.settings.decimals, 'K')
  const lagging = view.sensors.find((one) => one.is === 'lagging')?.id ?? ''
  const heats = phase === 'ramp' || phase === 'soak'
  return (
    <div class="soak">
      {short_by > 0 && (
        <StateWord
          state="finding"
          word={runWords.soakLow(capital(heatWords.sensorName(lagging)), amount(short_by))}
        />
      )}
      {phase === 'ramp' && <p>{runWords.waitsForReadings}</p>}
      {phase !== 'ramp' && (
        <p>
          <strong>{runWords.soakHas(duration(run.soak_ms), duration(soak_want_ms))}</strong>{' '}
          {run.soak_ms > 0 && (
            <span class="soft">
              {runWords.soakTo(clockTime(view.on.entry.at_ms + run.soak_counts_to_ms))}
            </span>
          )}
        </p>
      )}
      {heats && <p class="label soft">{runWords.soakIs[ask.purpose]}</p>}
      {phase === 'soak' && run.soak_ms === 0 && <p class="soft">{runWords.soakNext}</p>}
      {view.next.act === 'read' && read_by_ms !== undefined && elapsed_ms < read_by_ms && (
        <p>{runWords.readWithin(duration(read_by_ms - elapsed_ms))}</p>
      )}
    </div>
  )
}
