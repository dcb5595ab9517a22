// Steps and hold points as the office reads them, with the countersigns that it may make.
import type { JSX } from 'preact'
import type { Progress, StageView, StepView } from '../../core/views/office_steps.ts'
import { Mark, type MarkName } from '../parts/mark.tsx'
import { listed } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import type { AskFor } from './job_ask.ts'
import { PART } from './job_jump.tsx'
import { LinkButton } from './page_parts.tsx'

const words = o.job.steps

type StepsProps = { stages: readonly StageView[]; progress: Progress; onAsk: AskFor }

export function JobSteps({ stages, progress, onAsk }: StepsProps): JSX.Element {
  return (
    <section class="o-part" id={PART.steps} tabIndex={-1} aria-label={words.title}>
      <div class="o-part-head">
        <h2>{words.title}</h2>
        <small>{words.count(progress.done, progress.total)}</small>
      </div>
      {stages.length === 0 && <p class="soft">{words.none}</p>}
      {stages.map((stage, at) => (
        <div key={`${stage.method}/${stage.number}`}>
          {stage.method !== stages[at - 1]?.method && (
            <h3 class="o-method-name">{words.method(stage.methodTitle, stage.revision)}</h3>
          )}
          <Stage stage={stage} onAsk={onAsk} />
        </div>
      ))}
    </section>
  )
}

/** Open where something is to be done or signed now; the rest is folded, and says how far it is. */
function Stage({ stage, onAsk }: { stage: StageView; onAsk: AskFor }): JSX.Element {
  const { steps } = stage
  const done = steps.filter((step) => step.done !== '').length
  const now = steps.some((step) => step.next || step.hold === 'held')
  return (
    <details class="o-fold" open={now}>
      <summary>{words.stage(stage.number, stage.title, done, steps.length)}</summary>
      <ol class="o-steps">
        {steps.map((step) => (
          <StepRow key={step.step} step={step} onAsk={onAsk} />
        ))}
      </ol>
    </details>
  )
}

function markOf(step: StepView): readonly [mark: MarkName, ink: string] {
  if (step.done === 'done') return ['done', 'in-bay']
  if (step.done === 'not_applicable') return ['absent', '']
  if (step.hold === 'held') return ['held', 'in-stop']
  return step.next ? ['next', 'in-bay'] : ['open', '']
}

const HOLD_WORDS: { readonly [H in StepView['hold']]: string } = {
  none: '',
  ahead: words.ahead,
  held: words.held,
  passed: words.passed,
  deviation: words.deviation,
}

function needWords(need: string): string {
  const [step = '', moment] = need.split('@')
  return moment === undefined ? step : words.moment(step, o.what.moment(moment))
}

function notesOf(step: StepView): readonly string[] {
  return [
    HOLD_WORDS[step.hold],
    step.done === 'not_applicable' ? words.notApplicable : '',
    step.done === '' && step.needsOpen.length > 0 ? words.needs(listed(step.needsOpen.map(needWords))) : '',
    step.openAsks.length > 0 ? words.open(listed(step.openAsks)) : '',
  ].filter((note) => note !== '')
}

function StepRow({ step, onAsk }: { step: StepView; onAsk: AskFor }): JSX.Element {
  const [mark, ink] = markOf(step)
  return (
    <li>
      <span class="o-step-number">{step.number}</span>
      <span class={ink}>
        <Mark name={mark} />
      </span>
      <div>
        <p class={step.hold === 'held' ? 'in-stop' : ''}>{step.title}</p>
        {notesOf(step).map((note) => (
          <small key={note}>{note}</small>
        ))}
        {step.signs
          .filter((sign) => sign.open && step.needsOpen.length === 0)
          .map((sign) => (
            <LinkButton
              key={sign.ask}
              label={words.sign(step.title)}
              onPress={() => onAsk({ act: 'sign', step, sign })}
            >
              {words.sign(sign.name || words.signDeviation)}
            </LinkButton>
          ))}
        {step.done !== '' && (
          <LinkButton
            label={words.sendBack(step.title)}
            onPress={() => onAsk({ act: 'send_back', hashes: [step.tick], words: step.title })}
          >
            {o.job.timeLine.sendBack}
          </LinkButton>
        )}
      </div>
    </li>
  )
}
