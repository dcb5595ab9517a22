// Change what was recorded: each value that stands can be typed again, or struck with a reason.
import type { JSX } from 'preact'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, StepPlace } from '../../core/views/card.ts'
import { mayStrike } from '../../core/views/records_view.ts'
import { KeyLink } from '../parts/key.tsx'
import { Sheet } from '../parts/sheet.tsx'
import { stepWords } from '../words/en_step.ts'
import { capital } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { By } from './made_by.tsx'
import { type MadeRecord, madeRecords, valueWords } from './made_words.ts'
import { paths } from './router.ts'

type SheetProps = { card: Card; place: StepPlace; view: AskView; onClose: () => void }

export function ValueSheet({ card, place, view, onClose }: SheetProps): JSX.Element {
  const records = madeRecords(view)
  return (
    <Sheet title={stepWords.value.title(view.ask.name)} onClose={onClose}>
      {records.length === 0 && <p>{stepWords.value.none}</p>}
      <ul class="lines">
        {records.map((record) => (
          <li key={record.known.entry.hash}>
            <RecordKeys card={card} place={place} view={view} record={record} />
          </li>
        ))}
      </ul>
    </Sheet>
  )
}

type KeysProps = Omit<SheetProps, 'onClose'> & { record: MadeRecord }

function RecordKeys({ card, place, view, record }: KeysProps): JSX.Element {
  const me = usePhone().me()
  const { known, point, name } = record
  const words = valueWords(card, known)
  const line = name === '' ? words : `${capital(name)}: ${words}`
  const own = mayStrike(known.entry, me)
  const again = againWords(view)
  const who = personName(card, known.entry.by)
  return (
    <>
      <p>
        <strong>{line}</strong>
        {' · '}
        <By card={card} known={known} />
      </p>
      <div class="keys keys-two">
        {again && (
          <KeyLink
            href={paths.ask(card.job, place.method.id, place.step.id, view.ask.id, point)}
            label={`${again}: ${line}`}
          >
            {again}
          </KeyLink>
        )}
        {own && (
          <KeyLink
            tone="stop"
            href={paths.strike(card.job, known.entry.hash)}
            label={stepWords.value.strikeOf(line)}
          >
            {stepWords.value.strike}
          </KeyLink>
        )}
      </div>
      {!own && (
        <p class="label soft">{again ? stepWords.value.notYours(who) : stepWords.value.notYoursPlain(who)}</p>
      )}
    </>
  )
}

/** What typing it again is called; nothing where there is nothing to type. */
function againWords({ ask }: AskView): string {
  switch (ask.kind) {
    case 'tick':
    case 'countersign':
      return ''
    case 'choice':
      return stepWords.value.choose
    case 'lot':
      return stepWords.value.another
    default:
      return stepWords.value.again
  }
}
