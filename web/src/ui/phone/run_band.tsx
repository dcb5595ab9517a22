// A heat run that goes on, above the act that is done meanwhile.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { hotRuns } from '../../core/views/glance_view.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { countdown } from '../words/format.ts'
import { usePhone } from './context.ts'
import { leadsWords, nextWords } from './heat_words.ts'
import { paths } from './router.ts'
import { type LiveRun, liveRun } from './run_clock_hook.ts'

export function RunBand({ card }: { card: Card }): JSX.Element | null {
  const { services } = usePhone()
  const runs = hotRuns(card).map((view) => liveRun(services, view))
  const calm = runs.filter((live) => !live.due?.due)
  if (calm.length === 0) return null
  return (
    <>
      {calm.map((live) => (
        <a key={live.view.run.run} class="run-band" href={paths.run(card.job, live.view.run.run)}>
          <Mark name="hot" />
          <span>
            <strong>{w.heat.title(live.view.zone.name)}</strong>
            <small>{runLine(live)}</small>
          </span>
          <Mark name="onward" />
        </a>
      ))}
    </>
  )
}

/** 'soak, 11:52 then: soaked', or how long it is on. */
export function runLine({ view, elapsed, due }: LiveRun): string {
  const phase = w.heat.phase[view.phase]
  if (due !== undefined && due.remaining_ms > 0)
    return `${phase}, ${countdown(due.remaining_ms)} ${leadsWords(view)}`
  return `${phase}, ${w.heat.runningFor(countdown(elapsed.elapsed_ms))}. ${nextWords(view)}`
}
