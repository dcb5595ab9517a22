// The office's instruments at a step that names one: one press, and what its calibration says.
import type { JSX } from 'preact'
import { daysUntil, standingOf } from '../../core/views/calibration.ts'
import { instrumentText, namedInstrument, type ShelfInstrument } from '../../core/views/shelf_view.ts'
import { Key } from '../parts/key.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { shelfWords as words } from '../words/en_shelf.ts'
import { date } from '../words/format.ts'
import { usePhone } from './context.ts'
import { dayOf } from './printed_day.ts'
import { useShelf } from './use_shelf.ts'

type PicksProps = { typed: string; onPick: (text: string) => void }

export function InstrumentPicks({ typed, onPick }: PicksProps): JSX.Element | null {
  const { services } = usePhone()
  const { instruments } = useShelf()
  const today = dayOf(services.device.clock.now().at_ms)
  const named = namedInstrument(typed, instruments, today)
  if (instruments.length === 0) return null
  return (
    <>
      <fieldset class="keys">
        <legend class="label-head">{words.instruments}</legend>
        {instruments.map((one) => (
          <Key
            key={one.number}
            class="key-row"
            onPress={() => onPick(instrumentText(one))}
            small={untilWords(one, today)}
          >
            {words.instrument(one.number, one.kind)}
          </Key>
        ))}
      </fieldset>
      {named?.standing === 'over' && (
        <StateWord state="finding" word={words.overdue(named.instrument.number)} />
      )}
    </>
  )
}

function untilWords({ calibrated_until: day }: ShelfInstrument, today: string): string {
  if (day === '') return words.unknown
  const said = date(new Date(`${day}T12:00:00`).getTime())
  if (standingOf(day, today) === 'over') return words.overSince(said)
  return daysUntil(day, today) <= 7 ? words.soon(said) : words.until(said)
}
