// What falls due elsewhere comes on top, 112 px high with its key; the page below keeps its input.
import type { JSX } from 'preact'
import { jobViewOf } from '../../core/views/job_view.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { heatWords } from '../words/en_heat.ts'
import { countdown } from '../words/format.ts'
import { usePhone } from './context.ts'
import { nextWords } from './heat_words.ts'
import { path, paths } from './router.ts'
import { type LiveRun, liveRun } from './run_clock_hook.ts'

/** Its readings are due and are being entered on this very page: no need to call to them. */
function isBeingDone(job: string, { view }: LiveRun): boolean {
  return view.next.act === 'read' && path.value === paths.runReadings(job, view.run.run)
}

/** Every run of this phone that is due now, with a way to it. */
export function DueBand(): JSX.Element | null {
  const { cards, services } = usePhone()
  const due = [...cards.value.values()].flatMap((card) =>
    card.hotRuns
      .map((view) => ({ card, live: liveRun(services, view) }))
      .filter(({ live }) => live.due?.due && !isBeingDone(card.job, live)),
  )
  if (due.length === 0) return null
  return (
    <>
      {due.map(({ card, live }) => (
        <a key={live.view.run.run} class="due-band" href={paths.run(card.job, live.view.run.run)}>
          <Mark name="hot" />
          <span>
            <strong>{heatWords.calls.due(nextWords(live.view))}</strong>
            <small>
              {w.card.job(jobViewOf(card).order)}, {countdown(live.due?.remaining_ms ?? 0)}{' '}
              {heatWords.overdue}
            </small>
          </span>
          <Mark name="onward" />
        </a>
      ))}
    </>
  )
}
