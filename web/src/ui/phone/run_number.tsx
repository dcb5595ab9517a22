// The one big number of a run: down to the next act, up when it is due, or up since switch-on.
import type { JSX } from 'preact'
import type { RunView } from '../../core/views/heat_view.ts'
import { BigNumber } from '../parts/big_number.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { capital, countdown } from '../words/format.ts'
import { leadsWords, nextWords, phaseWords } from './heat_words.ts'
import type { LiveRun } from './run_clock_hook.ts'

/** From an hour on the big number is longer than a small phone is wide. */
const LONG = 5

/** Down to the next act while one is timed, else up since switch-on. */
export function RunNumber({ live }: { live: LiveRun }): JSX.Element {
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
      {view.phase !== 'over' && (
        <div class={`big-row${text.length > LONG ? ' big-long' : ''}`}>
          <BigNumber text={text} timer label={heatWords.runningFor(text)} />
          <span class="big-what">{runWords.sinceOn}</span>
        </div>
      )}
    </>
  )
}

function headWords(view: RunView): string {
  if (view.phase === 'over' || view.phase === 'aborted') return capital(phaseWords(view))
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

type DoubtProps = { of: 'wall_only' | 'check_clock'; own: boolean }

/** Of another phone's run the office alone can tell how its clock stands to this one. */
export function Doubt({ of, own }: DoubtProps): JSX.Element {
  const words = of === 'check_clock' ? runWords.doubtSetBack : runWords.doubt
  return (
    <p class="doubt" role="status">
      <StateWord state="finding" word={own ? words : runWords.doubtOther} />
    </p>
  )
}
