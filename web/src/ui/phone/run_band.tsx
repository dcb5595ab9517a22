// A heat run that goes on, above the act that is done meanwhile.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import type { NextOfRun } from '../../core/views/run_next.ts'
import { progressOf } from '../../core/views/run_progress.ts'
import { HeatProfile } from '../parts/heat_profile.tsx'
import { Mark } from '../parts/mark.tsx'
import { heatWords } from '../words/en_heat.ts'
import { capital, countdown } from '../words/format.ts'
import { usePhone } from './context.ts'
import { leadsWords, nextWords, phaseWords } from './heat_words.ts'
import { paths } from './router.ts'
import { type LiveRun, liveRun } from './run_clock_hook.ts'

export function RunBand({ card }: { card: Card }): JSX.Element | null {
  const { services } = usePhone()
  const runs = card.hotRuns.map((view) => liveRun(services, view))
  const calm = runs.filter((live) => !live.due?.due)
  if (calm.length === 0) return null
  return (
    <>
      {calm.map((live) => (
        <a key={live.view.run.run} class="run-band" href={paths.run(card.job, live.view.run.run)}>
          <Mark name="hot" />
          <span>
            <strong>{capital(bandHead(live))}</strong>
            <small>{runLine(live)}</small>
            <HeatProfile progress={progressOf(live.view, live.elapsed.elapsed_ms)} />
          </span>
          <Mark name="onward" />
        </a>
      ))}
    </>
  )
}

/** A run in the list of jobs. */
export function RunLine({ run }: { run: RunView }): JSX.Element {
  return <strong class="in-hot">{runLine(liveRun(usePhone().services, run))}</strong>
}

const HANDS: readonly NextOfRun['act'][] = ['turn_down', 'lift', 'off', 'remark']

/** An act that needs hands comes before the zone's name: it is called for on every page. */
function bandHead({ view }: LiveRun): string {
  return HANDS.includes(view.next.act) ? heatWords.runCalls(nextWords(view)) : heatWords.title(view.zone.name)
}

/** 'soak, 11:52 then: soaked', or how long it is on. */
function runLine({ view, elapsed, due }: LiveRun): string {
  const phase = capital(phaseWords(view))
  if (due !== undefined && due.remaining_ms > 0)
    return `${phase}, ${countdown(due.remaining_ms)} ${leadsWords(view)}`
  const on = `${phase}, ${heatWords.runningFor(countdown(elapsed.elapsed_ms))}`
  return HANDS.includes(view.next.act) ? on : `${on}. ${nextWords(view)}`
}
