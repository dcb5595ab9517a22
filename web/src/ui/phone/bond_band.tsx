// The clocks of a bond above the act: what runs, what closes next, what was set too late.
import type { JSX } from 'preact'
import { type BondClock, type BondStand, bondClocksOf, standOf } from '../../core/views/bond_clocks.ts'
import type { Card } from '../../core/views/card.ts'
import { mixerOf } from '../../core/views/mixer_clock.ts'
import { leftOf } from '../../core/views/planned_time.ts'
import { Mark } from '../parts/mark.tsx'
import { bondWords } from '../words/en_bond.ts'
import { capital, clockTime, countdown, duration, listed, numberWord, wholeMinutes } from '../words/format.ts'
import { usePhone } from './context.ts'
import { MixerLate, MixerRow } from './mixer_row.tsx'
import { paths } from './router.ts'
import { elapsedSince } from './run_clock_hook.ts'

/** At most these many late rivets are named in the band; the map has them all. */
const NAMED = 4

/** `warnsOnly`: on a page that needs its room, only what is nearly over or over. */
export function BondBand({
  card,
  warnsOnly = false,
}: {
  card: Card
  warnsOnly?: boolean
}): JSX.Element | null {
  const clocks = bondClocksOf(card)
  const mixer = mixerOf(card)
  const isMixing = clocks.some((clock) => clock.mixing && clock.next !== undefined)
  const shown = clocks.filter((clock) => clock.next !== undefined || (clock.late.length > 0 && !warnsOnly))
  const isMarked = mixer.late.length > 0 && !isMixing && !warnsOnly
  if (shown.length === 0 && !isMarked) return null
  return (
    <>
      {shown.map((clock) => (
        <ClockRow key={clock.id} card={card} clock={clock} warnsOnly={warnsOnly} />
      ))}
      {isMarked && <MixerLate mixer={mixer} />}
    </>
  )
}

/** Redrawn each second from the entries and the run clock. */
function ClockRow(props: { card: Card; clock: BondClock; warnsOnly: boolean }): JSX.Element | null {
  const { card, clock, warnsOnly } = props
  const { services } = usePhone()
  const { elapsed_ms, doubt } = elapsedSince(services, clock.started)
  const stand = standOf(clock, elapsed_ms)
  const { next, late } = clock
  if (stand === undefined || next === undefined) return <LateRow card={card} clock={clock} />
  if (warnsOnly && stand.is !== 'closing' && stand.is !== 'over') return null
  const small = [
    stand.outside
      ? bondWords.outside[stand.outside.by](duration(wholeMinutes(stand.outside.takes_ms)))
      : bondWords.since(clock.source.ask.name, clockTime(clock.started.entry.at_ms)),
    ...(next.shortened ? [bondWords.shortened] : []),
    ...(doubt === 'check_clock' ? [bondWords.doubt] : []),
  ]
  return (
    <>
      <a
        class={isUrgent(stand) ? 'run-band due-band' : 'run-band'}
        href={paths.ask(card.job, next.place.method.id, next.place.step.id, next.ask.id)}
      >
        <Mark name="clock" />
        <span>
          <strong>{standWords(stand, (stand.outside?.place ?? next.place).step.title)}</strong>
          <small>{small.join(', ')}</small>
        </span>
        <Mark name="onward" />
      </a>
      <p class="unseen" role="status">
        {isUrgent(stand) && bondWords.spoken[stand.is]((stand.outside?.place ?? next.place).step.title)}
      </p>
      {clock.mixing && !warnsOnly && (
        <MixerRow
          card={card}
          place={clock.source.place}
          step_ms={wholeMinutes(leftOf(next.way.slice(0, 1), elapsed_ms))}
        />
      )}
      {late.length > 0 && !warnsOnly && <LateRow card={card} clock={clock} />}
    </>
  )
}

type Urgent = BondStand & { readonly is: 'closing' | 'over' | 'ends_outside' }

function isUrgent(stand: BondStand): stand is Urgent {
  return stand.is === 'closing' || stand.is === 'over' || stand.is === 'ends_outside'
}

function standWords({ is, ms }: BondStand, step: string): string {
  switch (is) {
    case 'too_early':
      return bondWords.tooEarly(step, countdown(ms))
    case 'open':
      return bondWords.open(step, countdown(ms))
    case 'closing':
      return bondWords.closing(step, countdown(ms))
    case 'ends_outside':
      return bondWords.endsOutside(step, countdown(ms))
    case 'over':
      return bondWords.over(step, countdown(ms))
  }
}

function LateRow({ card, clock: { late } }: { card: Card; clock: BondClock }): JSX.Element {
  const named = late.slice(0, NAMED).map((one) => bondWords.lateAt(one.position, one.minute))
  return (
    <a class="run-band" href={paths.map(card.job)}>
      <Mark name="finding" />
      <span>
        <strong>{capital(bondWords.late(numberWord(late.length), listed(named)))}</strong>
        <small>{bondWords.mixer}</small>
      </span>
      <Mark name="onward" />
    </a>
  )
}
