// Pieces against positions: worked out from the rivets, recorded as it stands, with its model beside it.
import type { JSX } from 'preact'
import type { ComputeAsk } from '../../core/method.ts'
import { computeViewOf, resultDraft } from '../../core/views/compute_view.ts'
import { deviation, refOf } from '../../core/views/drafts.ts'
import { PIECES } from '../../core/views/tally_view.ts'
import { Key } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { RecordKey, useWords } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { askWords } from '../words/en_asks.ts'
import { pageWords } from '../words/en_pages.ts'
import { capital, count } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { paths } from './router.ts'
import type { AskProps } from './text_screens.tsx'

export function ComputeScreen({ card, place, ask, onDone }: AskProps<ComputeAsk>): JSX.Element {
  const { record } = usePhone()
  const view = computeViewOf(card, place, ask)
  const { verdict, pieces } = view.reconciliation
  const input = useWords({ label: pageWords.deviationWhat })
  const write = async (reason?: string) => {
    const result = resultDraft(card, place, ask, view)
    const why = (made: readonly { hash: string }[]) =>
      deviation(
        refOf(place),
        reason ?? '',
        made.map((one) => one.hash),
        false,
      )
    if (await record(card.job, reason === undefined ? [result] : [result, why])) onDone()
  }
  return (
    <Frame
      act={`${card.job}/${place.step.id}/${ask.id}`}
      card={card}
      place={place}
      back={paths.step(card.job, place.method.id, place.step.id)}
      foot={
        verdict === 'inside' ? (
          <Key tone="main" onPress={() => void write()}>
            {askWords.compute.record}
          </Key>
        ) : (
          <RecordKey input={input} onWords={(words) => void write(words)}>
            {askWords.compute.record}
          </RecordKey>
        )
      }
    >
      <Leaf>
        <p class="stage">{place.step.title}</p>
        <h1 class="act close" tabIndex={-1}>
          {capital(ask.name)}
        </h1>
        {view.stale && <StateWord state="finding" word={askWords.compute.stale} />}
        <table class="sums">
          <thead>
            <tr>
              <td />
              {askWords.compute.columns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {PIECES.map((piece) => (
              <tr
                key={piece}
                class={pieces[piece].difference !== 0 || pieces[piece].lost > 0 ? 'in-stop' : ''}
              >
                <th scope="row">{capital(askWords.tally.piecesOf[piece])}</th>
                <td>{count(pieces[piece].owed)}</td>
                <td>{count(pieces[piece].taken)}</td>
                <td>{count(pieces[piece].lost)}</td>
              </tr>
            ))}
          </tbody>
        </table>
        <p class="lead">
          <StateWord state={verdict === 'inside' ? 'done' : 'finding'} word={w.card.verdict[verdict]} />
        </p>
        <p class="label soft">{askWords.compute.model}</p>
        {verdict === 'outside' && (
          <>
            <p>{pageWords.deviationFor(w.card.verdict.outside)}</p>
            {input.field}
          </>
        )}
      </Leaf>
    </Frame>
  )
}
