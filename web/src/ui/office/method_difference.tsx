// What differs between two revisions of a method: by step, then by what the step asks.
import type { JSX } from 'preact'
import type { Change } from '../../core/views/member_changes.ts'
import {
  type AskDifference,
  isSame,
  type MethodDifference,
  type StepDifference,
} from '../../core/views/method_difference.ts'
import { Mark, type MarkName } from '../parts/mark.tsx'
import { o } from '../words/office_en.ts'
import { difference as words } from '../words/office_en_difference.ts'

const MARK_OF: { readonly [H in StepDifference['how']]: MarkName } = {
  added: 'closer',
  removed: 'absent',
  changed: 'late',
}

export function MethodDifferenceList({ difference }: { difference: MethodDifference }): JSX.Element {
  const { from, to, changes, steps } = difference
  return (
    <section class="o-difference" aria-label={words.title(to.title, from.revision, to.revision)}>
      <h3>{words.title(to.title, from.revision, to.revision)}</h3>
      <p>{isSame(difference) ? words.same : words.summary(difference)}</p>
      <ul class="o-list">
        {changes.length > 0 && (
          <li>
            <Mark name="late" />
            <div>
              <p>
                <strong>{words.whole}</strong>
              </p>
              <Changes changes={changes} />
            </div>
          </li>
        )}
        {steps.map((step) => (
          <StepRow key={`${step.how} ${step.step}`} step={step} />
        ))}
      </ul>
    </section>
  )
}

function StepRow({ step }: { step: StepDifference }): JSX.Element {
  return (
    <li>
      <Mark name={MARK_OF[step.how]} />
      <div>
        <p>
          <strong>{step.title}</strong>, {words.how[step.how]}
          <small class="o-inline"> · {step.stage}</small>
        </p>
        <Changes changes={step.changes} />
        {step.asks.map((ask) => (
          <AskRow key={`${ask.how} ${ask.ask}`} ask={ask} />
        ))}
        {!step.asksAnew && <small>{words.answersAsBefore}</small>}
      </div>
    </li>
  )
}

function AskRow({ ask }: { ask: AskDifference }): JSX.Element {
  return (
    <div class="o-difference-ask">
      <p>
        {o.methods.ask[ask.kind]}: {ask.name}, {words.how[ask.how]}
      </p>
      <Changes changes={ask.changes} />
    </div>
  )
}

function Changes({ changes }: { changes: readonly Change[] }): JSX.Element | null {
  if (changes.length === 0) return null
  return (
    <ul class="o-changes">
      {changes.map((change) => (
        <li key={change.member}>
          <ChangeLine change={change} />
        </li>
      ))}
    </ul>
  )
}

function ChangeLine({ change }: { change: Change }): JSX.Element {
  const name = words.member(change.member)
  if (change.as === 'list') {
    return (
      <>
        {name}: {listWords(change.before, change.after)}
      </>
    )
  }
  return (
    <>
      {name}: {words.was} <del>{words.shown(change.before)}</del>, {words.is}{' '}
      <ins>{words.shown(change.after)}</ins>
    </>
  )
}

function listWords(before: readonly string[], after: readonly string[]): string {
  const gone = before.filter((item) => !after.includes(item))
  const came = after.filter((item) => !before.includes(item))
  if (gone.length + came.length === 0) return words.reordered(after)
  return [gone.length > 0 ? words.gone(gone) : '', came.length > 0 ? words.came(came) : '']
    .filter((part) => part !== '')
    .join('; ')
}
