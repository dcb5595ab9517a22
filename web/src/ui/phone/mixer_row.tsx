// The mixer beside the open time: put down, flowing again or changed, and when what stands in it sets.
import type { JSX } from 'preact'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { mixerNote, refOf } from '../../core/views/drafts.ts'
import { type MixerAct, type MixerClock, mixerOf, mixerStand } from '../../core/views/mixer_clock.ts'
import { Mark } from '../parts/mark.tsx'
import { bondWords } from '../words/en_bond.ts'
import { countdown, duration } from '../words/format.ts'
import { usePhone } from './context.ts'
import { elapsedSince } from './run_clock_hook.ts'
import './mixer_row.css'

/** `step_ms`: what the step at hand still takes by the method's minutes. */
type RowProps = { card: Card; place: StepPlace; step_ms: number }

export function MixerRow({ card, place, step_ms }: RowProps): JSX.Element {
  const mixer = mixerOf(card)
  return (
    <>
      {mixer.stands === undefined ? (
        <div class="mixer-row">
          <MixerKey card={card} place={place} act="stands" />
        </div>
      ) : (
        <Standing card={card} place={place} step_ms={step_ms} mixer={mixer} />
      )}
      <MixerLate mixer={mixer} />
    </>
  )
}

/** Stays marked when no mixer is asked about any more. */
export function MixerLate({ mixer }: { mixer: MixerClock }): JSX.Element {
  return (
    <>
      {mixer.late.map(({ known, stood_ms }) => (
        <p key={known.entry.hash} class="mixer-row in-stop">
          <Mark name="finding" />
          <span>{bondWords.mixerLate(duration(stood_ms))}</span>
        </p>
      ))}
    </>
  )
}

/** Redrawn with the band, each second. */
function Standing(props: RowProps & { mixer: MixerClock }): JSX.Element | null {
  const { card, place, mixer, step_ms } = props
  const { services } = usePhone()
  if (mixer.stands === undefined) return null
  const { elapsed_ms } = elapsedSince(services, mixer.stands)
  const { is, ms } = mixerStand(mixer, elapsed_ms, step_ms)
  const urgent = is === 'setting' || is === 'set' || is === 'ends_outside'
  return (
    <div class={urgent ? 'mixer-row due-band' : 'mixer-row'}>
      <Mark name="clock" />
      <span>
        <strong>{bondWords.mixerStand[is](countdown(ms))}</strong>
        <small>{is === 'ends_outside' ? bondWords.mixerStep(duration(step_ms)) : gelWords(mixer)}</small>
      </span>
      <MixerKey card={card} place={place} act="changed" />
      {is !== 'set' && <MixerKey card={card} place={place} act="flows" />}
      <span class="unseen" role="status">
        {urgent && bondWords.mixerSpoken[is]}
      </span>
    </div>
  )
}

function gelWords({ gel_ms, sheet }: MixerClock): string {
  if (gel_ms === undefined) return bondWords.gelUnknown
  const gel = duration(gel_ms)
  return sheet === undefined
    ? bondWords.gelByMethod(gel)
    : bondWords.gelBySheet(gel, sheet.sheet, sheet.revision)
}

function MixerKey({ card, place, act }: { card: Card; place: StepPlace; act: MixerAct }): JSX.Element {
  const { record } = usePhone()
  const note = (): void => void record(card.job, [mixerNote(refOf(place), bondWords.mixerNotes[act], act)])
  return (
    <button type="button" class="key key-plain" onClick={note}>
      <span>{bondWords.mixerActs[act]}</span>
    </button>
  )
}
