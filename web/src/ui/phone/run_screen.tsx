// A heat run: the big number to the next act, sensors, soak, what is armed; amber when something is due.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { LaterAct } from '../../core/entries.ts'
import type { Card } from '../../core/views/card.ts'
import { heard, heatAct } from '../../core/views/drafts.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { nextAct } from '../../core/views/statuses.ts'
import { BigNumber } from '../parts/big_number.tsx'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { Mark } from '../parts/mark.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { capital, clockTime, countdown, duration, quantity } from '../words/format.ts'
import { Armed } from './armed.tsx'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { leadsWords, nextWords } from './heat_words.ts'
import { paths } from './router.ts'
import { ActsSheet } from './run_acts.tsx'
import { type LiveRun, liveRun, runTimeNow } from './run_clock_hook.ts'
import { RunHistory } from './run_history.tsx'
import { Sensors } from './sensors.tsx'

const SILENT_S = 60

type RunProps = { card: Card; view: RunView; reader: boolean; onGo: (path: string) => void }

export function RunScreen({ card, view, reader, onGo }: RunProps): JSX.Element {
  const { services } = usePhone()
  const { run } = view.run
  const live = liveRun(services, view)
  useEffect(() => {
    if (view.phase !== 'over') void services.device.wakeLock.hold()
  }, [services, view.phase])
  const due = live.due?.due ?? false
  return (
    <Frame
      act={`${run}/${view.phase}/${view.next.act}/${view.next.pad}`}
      card={card}
      place={view.place}
      back={paths.step(card.job, view.place.method.id, view.place.step.id)}
      due={due}
      foot={reader ? undefined : <RunFoot card={card} live={live} onGo={onGo} />}
    >
      <MeanwhileBand card={card} view={view} />
      <Leaf plain>
        <p class="stage">
          {heatWords.title(view.zone.name)} ·{' '}
          {runWords.since(heatWords.phase[view.phase], clockTime(view.on.entry.at_ms + view.phase_ms))}
        </p>
        <RunNumber live={live} />
        {view.phase !== 'over' && live.elapsed.doubt !== 'none' && <Doubt of={live.elapsed.doubt} />}
        <SoakLine view={view} elapsed_ms={live.elapsed.elapsed_ms} />
        <Sensors view={view} elapsed_ms={live.elapsed.elapsed_ms} />
        {view.phase !== 'over' && <Armed keys />}
        <RunHistory card={card} view={view} />
      </Leaf>
    </Frame>
  )
}

/** The step that this run made free, done with the pads still on. */
function MeanwhileBand({ card, view }: { card: Card; view: RunView }): JSX.Element | null {
  const next = nextAct(card)?.place
  if (next === undefined || next === view.place || view.phase === 'over') return null
  return (
    <a class="run-band" href={paths.step(card.job, next.method.id, next.step.id)}>
      <Mark name="next" />
      <span>
        <strong>{w.card.go(next.number)}</strong>
        <small>{next.step.title}</small>
      </span>
      <Mark name="onward" />
    </a>
  )
}

/** Down to the next act while one is timed, else up since switch-on. */
function RunNumber({ live }: { live: LiveRun }): JSX.Element {
  const { view, elapsed, due } = live
  if (due?.due) return <DueNumber live={live} />
  if (due !== undefined) {
    const text = countdown(due.remaining_ms)
    return (
      <>
        <h1 class="unseen" tabIndex={-1}>
          {leadsWords(view)}
        </h1>
        <BigNumber
          text={text}
          timer
          label={`${text} ${runWords.until(view.next.leads === 'soak' ? runWords.soakBegins : nextWords(view))}`}
        />
        <p class="big-what">{leadsWords(view)}</p>
      </>
    )
  }
  const text = countdown(elapsed.elapsed_ms)
  return (
    <>
      <h1 class="act" tabIndex={-1}>
        {headWords(view)}
      </h1>
      {view.phase !== 'over' && <BigNumber text={text} timer label={heatWords.runningFor(text)} />}
      {view.phase !== 'over' && <p class="big-what">{runWords.sinceOn}</p>}
    </>
  )
}

function headWords(view: RunView): string {
  if (view.phase === 'over' || view.phase === 'aborted') return capital(heatWords.phase[view.phase])
  return view.next.act === 'read' ? runWords.readNow : nextWords(view)
}

function DueNumber({ live }: { live: LiveRun }): JSX.Element {
  const { view, due } = live
  const text = countdown(due?.remaining_ms ?? 0)
  const act = headWords(view)
  return (
    <>
      <h1 class="act" tabIndex={-1}>
        {act}
      </h1>
      <div class="big-row">
        <BigNumber text={text} timer label={`${text} ${heatWords.overdue}: ${act}`} />
        <span class="big-what">{heatWords.overdue}</span>
      </div>
      {due?.of === 'readings' && <p>{runWords.soakPauses}</p>}
      {view.next.leads === 'soaked' && view.next.act === 'read' && due?.of === 'next' && (
        <p>{runWords.readToEnd}</p>
      )}
    </>
  )
}

function Doubt({ of }: { of: 'wall_only' | 'check_clock' }): JSX.Element {
  return (
    <p class="doubt" role="status">
      <StateWord state="finding" word={of === 'check_clock' ? runWords.doubtSetBack : runWords.doubt} />
    </p>
  )
}

function SoakLine({ view, elapsed_ms }: { view: RunView; elapsed_ms: number }): JSX.Element | null {
  const { run, ask, soak_want_ms, short_by, over_by, phase, read_by_ms } = view
  const amount = (value: number) => quantity(value, ask.settings.decimals, 'K')
  const lagging = view.sensors.find((one) => one.is === 'lagging')?.id ?? ''
  return (
    <div class="soak">
      {over_by && (
        <StateWord
          state="finding"
          word={runWords.overMax(heatWords.sensorName(over_by.sensor), amount(over_by.by))}
        />
      )}
      {short_by > 0 && (
        <StateWord state="finding" word={runWords.soakLow(heatWords.sensorName(lagging), amount(short_by))} />
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
      {phase === 'soak' && run.soak_ms === 0 && <p class="soft">{runWords.soakNext}</p>}
      {view.next.act === 'read' && read_by_ms !== undefined && elapsed_ms < read_by_ms && (
        <p>{runWords.readWithin(duration(read_by_ms - elapsed_ms))}</p>
      )}
    </div>
  )
}

function RunFoot({
  card,
  live,
  onGo,
}: {
  card: Card
  live: LiveRun
  onGo: (path: string) => void
}): JSX.Element {
  const { record, services } = usePhone()
  const [acts, setActs] = useState(false)
  const { view, due } = live
  const { run } = view.run
  const act = (what: LaterAct, pad = '') =>
    void record(card.job, [heatAct(run, what, runTimeNow(services, view), { pad })])
  const silence = () => {
    services.device.sound.silence(SILENT_S * 1000)
    void record(card.job, [heard(run, view.next.leads || view.next.act, SILENT_S)])
  }
  const { next } = view
  return (
    <>
      {view.phase === 'over' ? (
        <Key tone="main" onPress={() => onGo(paths.card(card.job))}>
          {w.card.held.backToCard}
        </Key>
      ) : next.act === 'read' ? (
        <Key tone="main" onPress={() => onGo(paths.runReadings(card.job, run))}>
          {heatWords.enterReadings}
        </Key>
      ) : (
        <Key tone="main" onPress={() => act(next.act as LaterAct, next.pad)}>
          {doneWords(view)}
        </Key>
      )}
      {next.act === 'lift' && !view.run.turned_down.includes(next.pad) && (
        <Key onPress={() => act('turn_down', next.pad)}>{heatWords.padAct.turn_down(next.pad)}</Key>
      )}
      {next.act !== 'read' && view.phase !== 'over' && (
        <Key onPress={() => onGo(paths.runReadings(card.job, run))}>{heatWords.enterReadings}</Key>
      )}
      {due?.due && (
        <Key mark="silent" onPress={silence}>
          {runWords.silent(SILENT_S)}
        </Key>
      )}
      <Key onPress={() => setActs(true)}>{runWords.otherActs}</Key>
      {acts && <ActsSheet card={card} view={view} onClose={() => setActs(false)} />}
    </>
  )
}

/** The key says what is recorded: it has happened. */
function doneWords(view: RunView): string {
  switch (view.next.act) {
    case 'lift':
      return heatWords.padAct.lift(view.next.pad)
    case 'read':
      return heatWords.enterReadings
    default:
      return heatWords.acts[view.next.act]
  }
}
