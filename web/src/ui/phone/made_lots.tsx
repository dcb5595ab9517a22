// Lots under their ask: one that is wrong or expired is kept and marked, and goes on only with a deviation.
import type { JSX } from 'preact'
import type { AskView } from '../../core/views/answers.ts'
import type { Card, Known } from '../../core/views/card.ts'
import { deviationsAbout } from '../../core/views/hold_view.ts'
import { KeyLink } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { stepWords } from '../words/en_step.ts'
import { listed } from '../words/format.ts'
import { By } from './made_by.tsx'
import { valueWords } from './made_words.ts'
import { paths } from './router.ts'

type LotsProps = { card: Card; view: AskView; reader: boolean }

export function MadeLots({ card, view, reader }: LotsProps): JSX.Element {
  return (
    <>
      {view.lots.map(({ known, marked }) => (
        <div key={known.entry.hash} class={marked ? 'made made-fault' : 'made'}>
          <Mark name={marked ? 'finding' : 'done'} />
          <span>
            {valueWords(card, known)}
            {' · '}
            <By card={card} known={known} />
            {marked && <Marked card={card} known={known} reader={reader} />}
          </span>
        </div>
      ))}
    </>
  )
}

function Marked({ card, known, reader }: { card: Card; known: Known; reader: boolean }): JSX.Element {
  const written = deviationsAbout(card, known.entry.hash)
  if (written.length > 0) {
    return (
      <small class="made-why">
        <Mark name="deviation" />{' '}
        {stepWords.lot.withDeviation(whyMarked(card, known), written.map((one) => one.body.text).join('; '))}
      </small>
    )
  }
  return (
    <>
      <strong class="in-stop made-why">{stepWords.lot.noAnswer(whyMarked(card, known))}</strong>
      {!reader && (
        <KeyLink tone="dev" mark="deviation" href={paths.deviate(card.job, known.entry.hash)}>
          {stepWords.lot.goOn}
        </KeyLink>
      )}
    </>
  )
}

function whyMarked(card: Card, { entry }: Known): string {
  const marks = card.state.findings
    .filter(({ hashes }) => hashes.includes(entry.hash))
    .map(({ code }) => code)
  const why = [
    marks.includes('wrong_lot') ? stepWords.lot.wrong : '',
    marks.includes('expired_lot') ? stepWords.lot.expired : '',
  ].filter((word) => word !== '')
  return listed(why)
}
