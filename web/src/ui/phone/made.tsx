// What stands recorded under an ask, as print, with one key to change it; fetched when something first stands there.
import type { ComponentChildren, JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { AskView, Value } from '../../core/views/answers.ts'
import type { Card, Known, StepPlace } from '../../core/views/card.ts'
import { isOutsideValue } from '../../core/views/hold_view.ts'
import { tallyOf } from '../../core/views/tally_view.ts'
import { differ } from '../../core/views/two_values_view.ts'
import { Key } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { stepWords } from '../words/en_step.ts'
import { capital, clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { askVerb } from './ask_words.ts'
import { laterPart } from './later_part.tsx'
import { By, WithReason } from './made_by.tsx'
import { MadeLots } from './made_lots.tsx'
import { MadeSigns } from './made_signs.tsx'
import { valueWords } from './made_words.ts'
import { paths } from './router.ts'
import './made.css'
import { ValueSheet } from './value_sheet.tsx'

const WhereNeeded = laterPart(async () => (await import('./made_where_needed.tsx')).WhereNeeded)

export type MadeProps = { card: Card; place: StepPlace; view: AskView; reader: boolean }

export function Made({ card, place, view, reader }: MadeProps): JSX.Element {
  const [sheet, setSheet] = useState(false)
  const changeable = !reader && hasRecords(view)
  const remark = view.values.find((value) => value.sentBack !== '')?.sentBack
  const goesOn = view.ask.kind === 'heat_run' || view.ask.kind === 'tally'
  const change = (
    <Key onPress={() => setSheet(true)} label={`${w.card.change}: ${capital(view.ask.name)}`}>
      {w.card.change}
    </Key>
  )
  return (
    <>
      {(!view.open || reader) && (
        <MadeName card={card} place={place} view={view}>
          {changeable && !goesOn && change}
        </MadeName>
      )}
      {view.open && view.ask.kind === 'tally' && (
        <p class="label">{stepWords.leftToDo(tallyOf(view.positions, view.ask).left)}</p>
      )}
      {remark && <p class="in-stop">{w.card.sentBack(remark)}</p>}
      <MadeValues card={card} view={view} />
      {!reader && view.ask.kind === 'reading' && view.ask.where_needed && (
        <WhereNeeded card={card} place={place} ask={view.ask} />
      )}
      <MadeLots card={card} view={view} reader={reader} />
      <MadeSigns card={card} place={place} view={view} />
      {changeable && view.open && <div class="made-change">{change}</div>}
      {sheet && <ValueSheet card={card} place={place} view={view} onClose={() => setSheet(false)} />}
    </>
  )
}

function hasRecords(view: AskView): boolean {
  return (
    view.values.some((value) => value.known !== undefined) || view.lots.length > 0 || view.signs.length > 0
  )
}

/** Answered: its name as print; a tally and a heat run stay open to be looked at. */
function MadeName(props: Omit<MadeProps, 'reader'> & { children: ComponentChildren }): JSX.Element {
  const { card, place, view } = props
  const { ask } = view
  const goesOn = ask.kind === 'heat_run' || ask.kind === 'tally'
  return (
    <p class="ask-name">
      <span>
        {goesOn && <Mark name="done" />} {capital(ask.name)}
      </span>
      {goesOn && (
        <a
          class="key key-plain"
          href={paths.ask(card.job, place.method.id, place.step.id, ask.id)}
          aria-label={`${askVerb(ask)}: ${capital(ask.name)}`}
        >
          {askVerb(ask)}
        </a>
      )}
      {props.children}
    </p>
  )
}

function MadeValues({ card, view }: { card: Card; view: AskView }): JSX.Element | null {
  const made = view.values.filter((value) => value.known !== undefined)
  if (made.length === 0) return null
  const calm = made.filter((value) => !value.twoStand)
  return (
    <>
      {calm.length > 1 ? <Points card={card} view={view} values={calm} /> : null}
      {calm.length === 1 && <Single card={card} view={view} value={calm[0]} />}
      {made
        .filter((value) => value.twoStand)
        .map((value) => (
          <TwoStand key={value.point} card={card} view={view} value={value} />
        ))}
    </>
  )
}

function Single(props: { card: Card; view: AskView; value: Value | undefined }): JSX.Element | null {
  const { card, view, value } = props
  if (value?.known === undefined) return null
  return <MadeLine card={card} view={view} value={value} known={value.known} />
}

type LineProps = { card: Card; view: AskView; value: Value; known: Known }

function MadeLine({ card, view, value, known }: LineProps): JSX.Element {
  const words = valueWords(card, known)
  const stale = view.open && known.entry.kind === 'result'
  const fault = stale || value.sentBack !== '' || isOutsideValue(card, view, known)
  return (
    <div class={fault ? 'made made-fault' : 'made'}>
      <Mark name={fault ? 'finding' : 'done'} />
      <span>
        {value.name === '' ? words : `${value.name}: ${words}`}
        {' · '}
        <By card={card} known={known} />
        {stale && <small class="made-why">{stepWords.value.stale}</small>}
        <WithReason card={card} hash={known.entry.hash} />
      </span>
    </div>
  )
}

/** Several points stand beside each other; who read them is said once for those in a row. */
function Points(props: { card: Card; view: AskView; values: readonly Value[] }): JSX.Element {
  const { card, view, values } = props
  const known = values.flatMap((value) => value.known ?? [])
  const readers = [...new Set(known.map(({ entry }) => personName(card, entry.by)))]
  const times = known.map(({ entry }) => entry.at_ms)
  const from = clockTime(Math.min(...times))
  const to = clockTime(Math.max(...times))
  return (
    <>
      <ul class="made-points">
        {values.map((value) => {
          if (value.known === undefined) return null
          const fault = value.sentBack !== '' || isOutsideValue(card, view, value.known)
          return (
            <li key={value.point} class={fault ? 'in-stop' : undefined}>
              <span>{value.name}</span> <strong>{valueWords(card, value.known)}</strong>
              {fault && <Mark name="finding" />}
              {fault && <span class="unseen">{stepWords.value.outside}</span>}
              <WithReason card={card} hash={value.known.entry.hash} />
            </li>
          )
        })}
      </ul>
      <p class="label soft">{w.common.by(readers.join(', '), from === to ? from : `${from}–${to}`)}</p>
    </>
  )
}

function inTime(standing: readonly Known[]): readonly Known[] {
  return [...standing].sort((a, b) => a.entry.at_ms - b.entry.at_ms)
}

/** Two answered without seeing each other: both stay, with both names, until somebody settles it. */
function TwoStand({ card, view, value }: { card: Card; view: AskView; value: Value }): JSX.Element {
  const apart = differ(value.standing)
  return (
    <div class={apart ? 'two-stand' : undefined}>
      <p class={apart ? 'in-stop' : 'label soft'}>
        {apart
          ? stepWords.two.line(capital(value.name === '' ? view.ask.name : value.name))
          : stepWords.two.same}
      </p>
      {inTime(value.standing).map((known) => (
        <div key={known.entry.hash} class={apart ? 'made made-fault' : 'made'}>
          <Mark name={apart ? 'finding' : 'done'} />
          <span>
            <strong>{valueWords(card, known)}</strong>
            {' · '}
            <By card={card} known={known} />
          </span>
        </div>
      ))}
    </div>
  )
}
