// A hold point: what waits, what is open and who may make it, and the two ways on. The record is never held.
import type { JSX } from 'preact'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { deviationWantsSign } from '../../core/views/sign_view.ts'
import { nextFree } from '../../core/views/statuses.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { roleName } from '../words/describe.ts'
import { w } from '../words/en.ts'
import { paths } from './router.ts'

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

type FootProps = { card: Card; place: StepPlace; hold: StepPlace; onGo: (path: string) => void }

export function HeldFoot({ card, place, hold, onGo }: FootProps): JSX.Element {
  const { method, step } = hold
  return (
    <>
      {hold === place ? (
        <WayOn card={card} hold={hold} onGo={onGo} />
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

function ToHold({ card, hold, onGo }: Omit<FootProps, 'place'>): JSX.Element {
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

/** The next step that may go on meanwhile, if there is one. */
function WayOn({ card, hold, onGo }: Omit<FootProps, 'place'>): JSX.Element {
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
