// About one record: strike it with a reason, or write the deviation that names it.
import type { JSX } from 'preact'
import type { Entry, StepRef } from '../../core/entries.ts'
import type { Card } from '../../core/views/card.ts'
import { deviation, NO_STEP, strike } from '../../core/views/drafts.ts'
import { mayStrike } from '../../core/views/records_view.ts'
import { KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { RecordKey, useWords } from '../parts/words_form.tsx'
import { describe } from '../words/describe.ts'
import { w } from '../words/en.ts'
import { pageWords } from '../words/en_pages.ts'
import { strikeWords } from '../words/en_step.ts'
import { clockTime } from '../words/format.ts'
import { personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { paths } from './router.ts'

/** The step that an entry is about, where it is about one. */
function stepOf({ body }: Entry): StepRef {
  const { method = '', digest = '', step = '' } = body as Partial<StepRef>
  return method === '' ? NO_STEP : { method, digest, step }
}

export function DeviateScreen({ card, target, onDone }: StrikeProps): JSX.Element {
  const { record } = usePhone()
  const entry = card.entries.get(target)?.entry
  const input = useWords({ label: pageWords.deviationWhat })
  const write = async (words: string) => {
    if (entry === undefined) return
    if (await record(card.job, [deviation(stepOf(entry), words, [target], false)])) onDone()
  }
  return (
    <Frame
      act={`deviate/${target}`}
      card={card}
      back={paths.card(card.job)}
      foot={
        entry && (
          <RecordKey input={input} onWords={(words) => void write(words)}>
            {pageWords.deviationKey}
          </RecordKey>
        )
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {pageWords.deviationTitle}
        </h1>
        <StateWord state="deviation" />
        {entry ? <About card={card} entry={entry} /> : <p>{pageWords.aboutGone}</p>}
        {entry && input.field}
      </Leaf>
    </Frame>
  )
}

function About({ card, entry }: { card: Card; entry: Entry }): JSX.Element {
  return (
    <p>
      {pageWords.aboutRecord} <strong>{describe(card, entry)}</strong>
      {' · '}
      <span class="soft made-by">{w.common.by(personName(card, entry.by), clockTime(entry.at_ms))}</span>
    </p>
  )
}

type StrikeProps = { card: Card; target: string; onDone: () => void }

export function StrikeScreen({ card, target, onDone }: StrikeProps): JSX.Element {
  const { record, me, justDone } = usePhone()
  const entry = card.entries.get(target)?.entry
  const input = useWords({ label: pageWords.strikeWhat })
  const write = async (words: string) => {
    if (!(await record(card.job, [strike(target, words)]))) return
    justDone.value = undefined
    onDone()
  }
  const may = entry !== undefined && mayStrike(entry, me())
  return (
    <Frame
      act={`strike/${target}`}
      card={card}
      back={paths.records(card.job)}
      foot={
        may && (
          <RecordKey input={input} tone="stop" onWords={(words) => void write(words)}>
            {pageWords.strikeKey}
          </RecordKey>
        )
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {strikeWords.strike}
        </h1>
        <p class="lead">{entry ? describe(card, entry) : pageWords.strikeGone}</p>
        {entry && <p class="soft">{w.common.by(personName(card, entry.by), clockTime(entry.at_ms))}</p>}
        {may ? input.field : <p>{pageWords.strikeNot}</p>}
        {!may && <KeyLink href={paths.card(card.job)}>{pageWords.toCard}</KeyLink>}
      </Leaf>
    </Frame>
  )
}
