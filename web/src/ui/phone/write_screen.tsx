// Notes, deviations, 'not applicable', 'already done': words about a step or the job.
import type { JSX } from 'preact'
import type { Draft } from '../../core/entries.ts'
import { bodyOf, type Card, type StepPlace } from '../../core/views/card.ts'
import { deviation, later, NO_STEP, notApplicable, note, refOf } from '../../core/views/drafts.ts'
import { Leaf } from '../parts/leaf.tsx'
import { StateWord } from '../parts/state_word.tsx'
import { RecordKey, useWords } from '../parts/words_form.tsx'
import { describe } from '../words/describe.ts'
import { w } from '../words/en.ts'
import { pageWords } from '../words/en_pages.ts'
import { heldWords } from '../words/en_step.ts'
import { clockTime } from '../words/format.ts'
import { doerName, personName } from '../words/names.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { paths, type WriteWhat } from './router.ts'

type WriteProps = { card: Card; place: StepPlace | undefined; what: WriteWhat; onDone: () => void }

type Form = {
  title: string
  label: string
  key: string
  dev: boolean
  /** What recording it does, where that is not plain. */
  why?: string
  draft: (words: string) => Draft
}

function signWords(place: StepPlace | undefined): string {
  const demand = place?.step.hold_countersign ?? ''
  return demand === '' ? '' : heldWords.alreadySigned(doerName(demand))
}

function formOf({ card, place, what }: Omit<WriteProps, 'onDone'>): Form {
  const ref = place ? refOf(place) : NO_STEP
  const dev = { label: pageWords.deviationWhat, key: pageWords.deviationKey, dev: true }
  switch (what) {
    case 'not_applicable':
      return {
        title: pageWords.naTitle,
        label: w.common.reason,
        key: pageWords.naKey,
        dev: false,
        draft: (words) => (place ? notApplicable(card, place, words) : note(ref, words)),
      }
    case 'later':
      return {
        title: pageWords.laterTitle,
        label: w.common.reason,
        key: pageWords.laterKey,
        dev: false,
        why: pageWords.laterWhy,
        draft: (words) => (place ? later(place, words) : note(ref, words)),
      }
    case 'deviation':
      return { ...dev, title: pageWords.deviationTitle, draft: (words) => deviation(ref, words, [], false) }
    case 'already_done':
      return {
        ...dev,
        title: heldWords.alreadyTitle,
        why: [heldWords.alreadyWhy, signWords(place)].join(' '),
        draft: (words) => deviation(ref, words, [], true),
      }
    default:
      return {
        title: pageWords.noteTitle,
        label: pageWords.noteWhat,
        key: pageWords.noteKey,
        dev: false,
        draft: (words) => note(ref, words),
      }
  }
}

export function WriteScreen(props: WriteProps): JSX.Element {
  const { card, place, what, onDone } = props
  const { record } = usePhone()
  const form = formOf(props)
  const input = useWords({ label: form.label })
  const write = async (words: string) => {
    if (await record(card.job, [form.draft(words)])) onDone()
  }
  return (
    <Frame
      act={`${card.job}/${place?.step.id}/${what}`}
      card={card}
      place={place}
      back={place ? paths.step(card.job, place.method.id, place.step.id) : paths.card(card.job)}
      foot={
        <RecordKey input={input} onWords={(words) => void write(words)}>
          {form.key}
        </RecordKey>
      }
    >
      <Leaf>
        {place && (
          <p class="stage">
            {w.card.step(place.number)} · {place.step.title}
          </p>
        )}
        <h1 class="act close" tabIndex={-1}>
          {form.title}
        </h1>
        {form.dev && <StateWord state="deviation" />}
        {form.why && <p>{form.why}</p>}
        {input.field}
        {what === 'note' && <EarlierNotes card={card} place={place} />}
      </Leaf>
    </Frame>
  )
}

function EarlierNotes({ card, place }: { card: Card; place: StepPlace | undefined }): JSX.Element | null {
  const notes = card.state.notes.filter((hash) => {
    const body = bodyOf(card, hash, 'note')
    return body?.step === (place?.step.id ?? '') && body.method === (place?.method.id ?? '')
  })
  if (notes.length === 0) return null
  return (
    <ul class="lines">
      {notes.map((hash) => {
        const entry = card.entries.get(hash)?.entry
        return (
          entry && (
            <li key={hash}>
              {describe(card, entry)}
              {' · '}
              <span class="soft made-by">
                {w.common.by(personName(card, entry.by), clockTime(entry.at_ms))}
              </span>
            </li>
          )
        )
      })}
    </ul>
  )
}
