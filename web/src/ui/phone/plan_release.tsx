// The plan's release as a list: what is done, what is next and when; the page's act is its next step.
import type { JSX } from 'preact'
import type { RunView } from '../../core/views/heat_view.ts'
import { type PlannedStep, plannedSteps } from '../../core/views/planned_release.ts'
import { Mark } from '../parts/mark.tsx'
import { forecastWords as words } from '../words/en_forecast.ts'
import { heatWords } from '../words/en_heat.ts'
import { clockTime, duration } from '../words/format.ts'
import './forecast.css'

/** How many steps stand open under the act; the others are a tap away. */
const IN_VIEW = 3

export function PlanRelease({ view }: { view: RunView }): JSX.Element | null {
  const { planned, phase } = view
  if (planned === undefined || (phase !== 'release' && phase !== 'workable')) return null
  const steps = plannedSteps(planned.steps, view)
  const next = steps.findIndex(({ done_ms }) => done_ms === undefined)
  if (next < 0) return null
  return (
    <section class="release-plan">
      <h2 class="label-head">{words.release}</h2>
      <ol class="lines">
        {steps.slice(next, next + IN_VIEW).map((step) => (
          <StepLine key={step.number} step={step} view={view} next={step.number === next + 1} />
        ))}
      </ol>
      <p class="label soft">{words.keeps}</p>
      {steps.length > IN_VIEW && (
        <details>
          <summary>{words.stepsAll(steps.length)}</summary>
          <ol class="lines">
            {steps.map((step) => (
              <StepLine key={step.number} step={step} view={view} next={step.number === next + 1} />
            ))}
          </ol>
        </details>
      )}
    </section>
  )
}

type LineProps = { step: PlannedStep; view: RunView; next: boolean }

function StepLine({ step, view, next }: LineProps): JSX.Element {
  return (
    <li class={next ? 'is-next' : ''}>
      {step.done_ms === undefined ? <Mark name={next ? 'next' : 'open'} /> : <Mark name="done" />}
      <span>{heatWords.toShare(step.pad, step.permille)}</span>
      <span class="soft">{whenOf(step, view)}</span>
    </li>
  )
}

function whenOf({ done_ms, due_ms, at_s }: PlannedStep, { on, planned }: RunView): string {
  if (done_ms !== undefined) return words.stepDone(clockTime(on.entry.at_ms + done_ms))
  if (due_ms !== undefined) return words.stepDue(clockTime(on.entry.at_ms + due_ms))
  const after_s = at_s - (planned?.steps[0]?.at_s ?? at_s)
  return after_s === 0 ? words.stepFirst : words.stepAfter(duration(after_s * 1000))
}
