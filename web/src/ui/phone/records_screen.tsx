// My records: what I recorded, where it is, and the strike.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import { jobViewOf } from '../../core/views/job_view.ts'
import { type RecordView, recordsOf } from '../../core/views/records_view.ts'
import type { RefusedRow } from '../../store/types.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Leaf } from '../parts/leaf.tsx'
import { StateMark, StateWord } from '../parts/state_word.tsx'
import { describe, stepWord } from '../words/describe.ts'
import { w } from '../words/en.ts'
import { recordWords } from '../words/en_records.ts'
import { when } from '../words/format.ts'
import { usePhone } from './context.ts'
import { Frame } from './frame.tsx'
import { paths } from './router.ts'

export function RecordsScreen({ job }: { job: string }): JSX.Element {
  const { cards, refused, me } = usePhone()
  const shown = [...cards.value.values()].filter((card) => job === '' || card.job === job)
  const all = shown.map((card) => ({ card, records: recordsOf(card, me().by) }))
  const none = all.every((one) => one.records.length === 0)
  const rows = refused.value.filter((row) => job === '' || row.job === job)
  return (
    <Frame
      act={`records/${job}`}
      card={job === '' ? undefined : shown[0]}
      what={job === '' ? recordWords.title : undefined}
      back={job === '' ? paths.jobs : paths.card(job)}
      foot={
        <>
          <KeyLink href={paths.handIn}>{recordWords.sheet.handIn}</KeyLink>
          {job !== '' && <KeyLink href={paths.records()}>{recordWords.all}</KeyLink>}
        </>
      }
    >
      <Leaf>
        <h1 class="act" tabIndex={-1}>
          {recordWords.title}
        </h1>
        {none && <p class="lead">{recordWords.none}</p>}
        {none && <p>{recordWords.noneNext}</p>}
        {rows.map((row) => (
          <Refused key={row.hash} row={row} />
        ))}
        {all.map(({ card, records }) => (
          <section key={card.job}>
            {job === '' && records.length > 0 && <h2>{recordWords.inJob(jobViewOf(card).order)}</h2>}
            <ol class="records">
              {records.map((record) => (
                <RecordRow key={record.known.entry.hash} card={card} record={record} />
              ))}
            </ol>
          </section>
        ))}
      </Leaf>
    </Frame>
  )
}

function RecordRow({ card, record }: { card: Card; record: RecordView }): JSX.Element {
  const { services } = usePhone()
  const { entry } = record.known
  const words = describe(card, entry)
  const struck = record.struck !== undefined
  return (
    <li class="in-ruled">
      <StateMark state={struck ? 'struck' : record.place} />
      <p class="label soft">
        {[when(entry.at_ms, services.device.clock.now().at_ms), stepWord(card, entry)]
          .filter((one) => one !== '')
          .join(' · ')}
      </p>
      <p>{struck ? <del>{words}</del> : words}</p>
      {struck && <p>{record.struck ? recordWords.struck(record.struck) : recordWords.struckPlain}</p>}
      {record.sentBack !== '' && <p class="in-stop">{recordWords.sentBack(record.sentBack)}</p>}
      <p class="record-foot">
        <span>
          {record.place === 'aside'
            ? recordWords.aside(asideWords(record.asideCode))
            : w.states[record.place]}
        </span>
        {record.canStrike && (
          <a
            class="key key-plain"
            href={paths.strike(card.job, entry.hash)}
            aria-label={recordWords.strikeOf(words)}
          >
            {recordWords.strike}
          </a>
        )}
      </p>
    </li>
  )
}

function asideWords(code: string): string {
  return recordWords.asides[code] ?? code
}

/** A record that the office could not take: why, what it said, word for word. */
function Refused({ row }: { row: RefusedRow }): JSX.Element {
  const { services } = usePhone()
  return (
    <section class="refused">
      <StateWord state="refused" word={recordWords.refused} />
      <p>{row.fate.message}</p>
      <details>
        <summary>{recordWords.raw}</summary>
        <pre>{row.text}</pre>
      </details>
      {!row.seen && <Key onPress={() => void services.store.sawRefused(row.hash)}>{recordWords.sawIt}</Key>}
    </section>
  )
}
