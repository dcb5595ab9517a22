// The checks before switch-on: open ones are keys that lead to where they are made, made ones are print.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { openChecks, type RunCheck } from '../../core/views/run_checks.ts'
import { KeyLink } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { runWords } from '../words/en_run.ts'
import { capital, clockTime, listed, scaled, unitName } from '../words/format.ts'
import { askHint } from './ask_words.ts'
import { paths } from './router.ts'

type ChecksProps = { card: Card; checks: readonly RunCheck[] }

export function RunChecks({ card, checks }: ChecksProps): JSX.Element | null {
  const open = openChecks(checks)
  const made = checks.filter((one) => !open.includes(one))
  if (checks.length === 0) return null
  return (
    <section>
      <h2 class="label-head">{open.length > 0 ? runWords.checksLeft(open.length) : runWords.checks}</h2>
      <div class="checks-open">
        {open.map((check) => (
          <KeyLink
            key={keyOf(check)}
            class="key-row"
            mark={check.view.ask.kind === 'countersign' ? 'sign' : 'open'}
            href={pathOf(card, check)}
          >
            {capital(check.view.ask.name)}
            <small>{askHint(check.view) || w.card.step(check.place.number)}</small>
          </KeyLink>
        ))}
      </div>
      <ul class="lines checks-made">
        {made.map((check) => (
          <li key={keyOf(check)} class={check.outside ? 'in-stop' : ''}>
            <Mark name={check.outside ? 'finding' : check.view.open ? 'deviation' : 'done'} />
            <span>
              {capital(check.view.ask.name)} <strong>{saidOf(check)}</strong>
              {check.outside && ` ${runWords.outside}`}
              {check.view.open && ` ${runWords.byDeviation}`}
            </span>
            <span class="num">{check.made_ms ? clockTime(check.made_ms) : ''}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}

function keyOf({ place, view }: RunCheck): string {
  return `${place.step.id}/${view.ask.id}`
}

/** A tick is made on its step's page, everything else on its own. */
export function pathOf(card: Card, { place, view }: RunCheck): string {
  const { method, step } = place
  if (view.ask.kind === 'tick') return paths.step(card.job, method.id, step.id)
  return paths.ask(card.job, method.id, step.id, view.ask.id)
}

/** What was read, chosen or written; a tick says nothing more. */
function saidOf({ view }: RunCheck): string {
  const { ask } = view
  const said = view.values.flatMap(({ known, name }) => {
    const entry = known?.entry
    if (entry?.kind === 'text') return [entry.body.value]
    if (entry?.kind === 'choice' && ask.kind === 'choice')
      return [ask.options.find((one) => one.id === entry.body.option)?.name ?? '']
    if (entry?.kind !== 'reading' || !('value' in entry.body)) return []
    const { value, decimals } = entry.body
    return [name === '' ? scaled(value, decimals) : `${name} ${scaled(value, decimals)}`]
  })
  return ask.kind === 'reading' && said.length > 0 ? `${listed(said)} ${unitName(ask.unit)}` : listed(said)
}
