// A hold point: what waits, what is open or outside, who must sign, and the ways on. The record is never held.
import type { JSX } from 'preact'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { type HoldCheck, holdChecks } from '../../core/views/hold_view.ts'
import { deviationWantsSign, holdDeviations, signersOf } from '../../core/views/sign_view.ts'
import { nextFree } from '../../core/views/statuses.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { heldWords } from '../words/en_step.ts'
import { capital, glued } from '../words/format.ts'
import { doerName, personName } from '../words/names.ts'
import { askVerb } from './ask_words.ts'
import { usePhone } from './context.ts'
import './held.css'
import { MoreKey } from './more_sheet.tsx'
import { paths } from './router.ts'

/** Whether this check is made on this phone: a signature that its person may give, or that is not asked of another device. */
function isMadeHere({ view, signers, is }: HoldCheck): boolean {
  const { ask } = view
  if (is === 'outside') return false
  return ask.kind !== 'countersign' || !ask.other_device || signers?.own === true
}

type BandProps = {
  card: Card
  place: StepPlace
  hold: StepPlace
  asks: readonly AskView[]
  /** Its checks are still being made here. */
  calm: boolean
}

export function HeldBand({ card, place, hold, asks, calm }: BandProps): JSX.Element {
  const own = hold === place
  const checks = holdChecks(card, hold, asks, usePhone().me().by)
  const outside = checks.filter((check) => check.is === 'outside')
  return (
    <section class={calm ? 'held held-calm bleed' : 'held bleed'}>
      <span class="held-mark">
        <Mark name="held" />
      </span>
      <p class="stage">{heldWords.band(hold.number)}</p>
      {!calm && <h1 tabIndex={-1}>{heldWords.word}</h1>}
      <p>
        {!calm && <strong>{glued(place.step.title)}</strong>}{' '}
        {!own
          ? heldWords.waitsFor(hold.number, hold.step.title)
          : checks.length === 0
            ? heldWords.nothingOpen
            : outside.length === checks.length
              ? heldWords.doesNotPass
              : heldWords.waits(checks.length - outside.length)}
      </p>
      {own &&
        outside.map(({ view }) => (
          <p key={view.ask.id} class="held-outside">
            <Mark name="finding" /> {heldWords.outside(capital(view.ask.name))}
          </p>
        ))}
      {own &&
        checks
          .flatMap(({ view }) => voidNames(card, view))
          .map((name) => (
            <p key={name} class="held-outside">
              <Mark name="finding" /> {heldWords.voided(name)}
            </p>
          ))}
      {deviationWantsSign(card, hold) && <WantsSign card={card} hold={hold} />}
    </section>
  )
}

/** Whose signature counted, and does not any more. */
function voidNames(card: Card, { ask, signs }: AskView): readonly string[] {
  if (ask.kind !== 'countersign') return []
  const gone = signs.filter(({ state }) => state.why === 'superseded' || state.why === 'missing')
  return [...new Set(gone.map(({ known }) => personName(card, known.entry.by)))]
}

/** A deviation that passes the hold asks for a second name; who may give it is said by name. */
function WantsSign({ card, hold }: { card: Card; hold: StepPlace }): JSX.Element {
  const me = usePhone().me().by
  const { step } = hold
  const signers = signersOf(card, holdDeviations(card, hold), step.hold_countersign, me)
  const names = signers.named.map((one) => one.name)
  return (
    <>
      <p>{heldWords.wantsCountersign(doerName(step.hold_countersign))}</p>
      {names.length > 0 && <p>{heldWords.mustSign(names)}</p>}
    </>
  )
}

type FootProps = {
  card: Card
  place: StepPlace
  hold: StepPlace
  asks: readonly AskView[]
  calm: boolean
  onGo: (path: string) => void
}

export function HeldFoot({ card, place, hold, asks, calm, onGo }: FootProps): JSX.Element {
  const { method, step } = hold
  const checks = holdChecks(card, hold, asks, usePhone().me().by)
  const allAnswered = hold === place && checks.every((check) => check.is === 'outside')
  const wantsSign = deviationWantsSign(card, hold)
  return (
    <>
      {wantsSign ? (
        <KeyLink tone="main" mark="sign" href={paths.write(card.job, method.id, step.id, 'sign_deviation')}>
          {heldWords.signDeviation}
        </KeyLink>
      ) : hold === place ? (
        <WayOn card={card} hold={hold} checks={checks} onGo={onGo} />
      ) : (
        <ToHold card={card} hold={hold} onGo={onGo} />
      )}
      {!calm && !wantsSign && (
        <KeyLink
          tone="dev"
          mark="deviation"
          class="foot-wide"
          href={paths.write(card.job, method.id, step.id, 'already_done')}
        >
          {allAnswered ? heldWords.goOnWith : heldWords.already}
        </KeyLink>
      )}
      <KeyLink href={paths.write(card.job, place.method.id, place.step.id, 'note')}>{w.card.note}</KeyLink>
      <KeyLink href={paths.steps(card.job)}>{w.card.allSteps}</KeyLink>
      <MoreKey card={card} place={place} asks={asks} onGo={onGo} />
    </>
  )
}

function ToHold({ card, hold, onGo }: Pick<FootProps, 'card' | 'hold' | 'onGo'>): JSX.Element {
  return (
    <Key
      tone="main"
      onPress={() => onGo(paths.step(card.job, hold.method.id, hold.step.id))}
      small={hold.step.title}
    >
      {heldWords.toHold(hold.number)}
    </Key>
  )
}

/** A check is pressed where it stands, under its own words: this only leads there. */
function focusCheck(id: string): void {
  document.getElementById(`check-${id}`)?.focus()
}

/** Nothing is left here but a signature that another device gives: how its person finds it. */
function HaveSigned({ card, hold, checks }: Omit<WayOnProps, 'onGo'>): JSX.Element {
  const sign = checks.find(({ is, view }) => is === 'open' && view.ask.kind === 'countersign')?.view.ask
  if (sign === undefined) return <p class="soft">{heldWords.noneFree}</p>
  return (
    <KeyLink tone="main" mark="sign" href={paths.ask(card.job, hold.method.id, hold.step.id, sign.id)}>
      {heldWords.haveSigned}
      <small>{heldWords.onAnother(capital(sign.name))}</small>
    </KeyLink>
  )
}

type WayOnProps = { card: Card; hold: StepPlace; checks: readonly HoldCheck[]; onGo: (path: string) => void }

/** The first check of this hold that can be made on this phone, else the next step that may go on meanwhile. */
function WayOn({ card, hold, checks, onGo }: WayOnProps): JSX.Element {
  const first = checks.find(isMadeHere)?.view.ask
  if (first?.kind === 'tick') {
    return (
      <Key tone="main" onPress={() => focusCheck(first.id)} small={capital(first.name)}>
        {askVerb(first)}
      </Key>
    )
  }
  if (first !== undefined) {
    return (
      <Key
        tone="main"
        onPress={() => onGo(paths.ask(card.job, hold.method.id, hold.step.id, first.id))}
        small={capital(first.name)}
      >
        {askVerb(first)}
      </Key>
    )
  }
  const free = nextFree(card, hold)?.place
  if (free === undefined) return <HaveSigned card={card} hold={hold} checks={checks} />
  return (
    <Key
      tone="main"
      onPress={() => onGo(paths.step(card.job, free.method.id, free.step.id))}
      small={free.step.title}
    >
      {heldWords.go(free.number)}
    </Key>
  )
}
