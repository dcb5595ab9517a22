// The sheet behind the left of the glance line: each standing condition, who saw it last, and what to say when it changed.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { condition } from '../../core/views/drafts.ts'
import { jobViewOf } from '../../core/views/job_view.ts'
import { lostPieces } from '../../core/views/lost_pieces.ts'
import { type Standing, standingsOf } from '../../core/views/morning_view.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Sheet } from '../parts/sheet.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { w } from '../words/en.ts'
import { pieces } from '../words/en_kinds.ts'
import { morningWords } from '../words/en_step.ts'
import { capital, when } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { Gone } from './condition_gone.tsx'
import { usePhone } from './context.ts'
import './morning.css'
import { paths } from './router.ts'

type SheetProps = { card: Card | undefined; onClose: () => void }

export function ConditionsSheet({ card, onClose }: SheetProps): JSX.Element {
  const { cards } = usePhone()
  const all = card ? [card] : [...cards.value.values()]
  return (
    <Sheet title={w.phone.glance.conditions} onClose={onClose}>
      {all.map((one) => (
        <section key={one.job}>
          {card === undefined && all.length > 1 && <h3>{w.card.job(jobViewOf(one).order)}</h3>}
          <ul class="conditions">
            {standingsOf(one).map((standing) => (
              <Row key={standing.doc.id} card={one} one={standing} />
            ))}
          </ul>
          <Lost card={one} />
        </section>
      ))}
      <p class="label soft">{w.phone.glance.reported}</p>
    </Sheet>
  )
}

/** Pieces lost inside stay in view until they are found. */
function Lost({ card }: { card: Card }): JSX.Element | null {
  const lost = lostPieces(card)
  if (lost.length === 0) return null
  return (
    <>
      {lost.map(({ position, piece, hash }) => (
        <p key={hash} class="conditions-lost">
          <StateWord state="finding" word={morningWords.lost(piece === '' ? '' : pieces[piece], position)} />
        </p>
      ))}
      <KeyLink href={paths.map(card.job)}>{morningWords.toMap}</KeyLink>
    </>
  )
}

function Row({ card, one }: { card: Card; one: Standing }): JSX.Element {
  const { me, record, services } = usePhone()
  const { doc, on, gone, seen } = one
  const writes = me().as.some((role) => role === 'technician' || role === 'office')
  const byStep = doc.set_by === 'step'
  const now_ms = services.device.clock.now().at_ms
  return (
    <li>
      <p>
        <strong>{capital(doc.name)}</strong>
      </p>
      <p>
        <StateWord
          state={gone ? 'finding' : on ? 'done' : 'open'}
          word={
            gone
              ? morningWords.gone
              : on
                ? w.phone.glance.on
                : byStep
                  ? w.phone.glance.off
                  : morningWords.notByRun
          }
        />
        {seen && (on || gone) && (
          <span class="label soft seen-by">
            {w.common.by(personName(card, seen.entry.by), when(seen.entry.at_ms, now_ms))}
          </span>
        )}
      </p>
      {gone && writes && <Gone card={card} one={one} />}
      {on && !gone && byStep && writes && (
        <Key
          tone="stop"
          onPress={() => void record(card.job, [condition(card, doc.id, false)])}
          label={`${morningWords.changedNow}: ${doc.name}`}
        >
          {morningWords.changedNow}
        </Key>
      )}
    </li>
  )
}
