// A hold point: what waits, what is open and who may make it, and the two ways on. The record is never held.
import type { JSX } from 'preact'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { deviationWantsSign, sawOf, signersOf } from '../../core/views/sign_view.ts'
import { nextFree } from '../../core/views/statuses.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { capital } from '../words/format.ts'
import { roleName } from '../words/names.ts'
import { askVerb } from './ask_words.ts'
import { usePhone } from './context.ts'
import { paths } from './router.ts'

/** Whether this check is made on this phone: a signature that its person may give, or that is not asked of another device. */
function isMadeHere(card: Card, place: StepPlace, { ask }: AskView, me: string): boolean {
  if (ask.kind !== 'countersign') return ask.kind !== 'tick'
  return !ask.other_device || signersOf(card, sawOf(card, place, ask.id), ask.of, me).own
}

type BandProps = { card: Card; place: StepPlace; hold: StepPlace; asks: readonly AskView[] }

export function HeldBand({ card, place, hold, asks }: BandProps): JSX.Element {
  const own = hold === place
  const open = asks.filter((view) => view.open).length
  const { method, step } = hold
  return (
    <section class="held bleed">
      <span class="held-mark">
        <Mark name="held" />
      </span>
      <p class="stage">{w.card.held.band(hold.number)}</p>
      <h1 tabIndex={-1}>{w.card.held.word}</h1>
      <p>{own ? w.card.held.waits(open) : w.card.held.waitsFor(hold.number, hold.step.title)}</p>
      {deviationWantsSign(card, hold) && (
        <>
          <p>{w.card.held.wantsCountersign(roleName(step.hold_countersign))}</p>
          <KeyLink mark="sign" href={paths.write(card.job, method.id, step.id, 'sign_deviation')}>
            {w.card.held.signDeviation}
          </KeyLink>
        </>
      )}
    </section>
  )
}

type FootProps = {
  card: Card
  place: StepPlace
  hold: StepPlace
  asks: readonly AskView[]
  onGo: (path: string) => void
}

export function HeldFoot({ card, place, hold, asks, onGo }: FootProps): JSX.Element {
  const { method, step } = hold
  return (
    <>
      {hold === place ? (
        <WayOn card={card} hold={hold} asks={asks} onGo={onGo} />
      ) : (
        <ToHold card={card} hold={hold} onGo={onGo} />
      )}
      <KeyLink
        tone="dev"
        mark="deviation"
        class="foot-wide"
        href={paths.write(card.job, method.id, step.id, 'already_done')}
      >
        {w.card.held.already}
      </KeyLink>
      <KeyLink href={paths.write(card.job, place.method.id, place.step.id, 'note')}>{w.card.note}</KeyLink>
      <KeyLink href={paths.steps(card.job)}>{w.card.allSteps}</KeyLink>
    </>
  )
}

function ToHold({ card, hold, onGo }: Omit<FootProps, 'place' | 'asks'>): JSX.Element {
  return (
    <Key
      tone="main"
      onPress={() => onGo(paths.step(card.job, hold.method.id, hold.step.id))}
      small={hold.step.title}
    >
      {w.card.held.toHold(hold.number)}
    </Key>
  )
}

/** The first check of this hold that can be made on this phone, else the next step that may go on meanwhile. */
function WayOn({ card, hold, asks, onGo }: Omit<FootProps, 'place'>): JSX.Element {
  const me = usePhone().me().by
  const first = asks.find((view) => view.open && isMadeHere(card, hold, view, me))
  if (first !== undefined) {
    return (
      <Key
        tone="main"
        onPress={() => onGo(paths.ask(card.job, hold.method.id, hold.step.id, first.ask.id))}
        small={capital(first.ask.name)}
      >
        {askVerb(first.ask)}
      </Key>
    )
  }
  const free = nextFree(card, hold)?.place
  if (free === undefined) return <p class="soft">{w.card.held.noneFree}</p>
  return (
    <Key
      tone="main"
      onPress={() => onGo(paths.step(card.job, free.method.id, free.step.id))}
      small={free.step.title}
    >
      {w.card.go(free.number)}
    </Key>
  )
}
