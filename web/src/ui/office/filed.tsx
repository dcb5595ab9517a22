// The list of the filed: searched by words and days, paged, each with its report, dossier, seal and addenda.
import type { JSX } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import type { Answer } from '../../office_api/answer.ts'
import type { FiledPage, FiledRow, FiledSearch } from '../../office_api/rows.ts'
import { o } from '../words/office_en.ts'
import { FiledCard } from './filed_card.tsx'
import { Field } from './forms.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Empty, Head, SeenPage } from './page_parts.tsx'
import { TimeZonePart } from './time_zone_part.tsx'

const TYPING_MS = 300
const DAY_MS = 24 * 3600 * 1000

type Typed = { readonly words: string; readonly from: string; readonly until: string }
const NOTHING: Typed = { words: '', from: '', until: '' }

/** A day as the page's own clock has it: from its first moment, to its last. */
function momentOf(day: string, after_ms: number): number | undefined {
  const at_ms = new Date(`${day}T00:00:00`).getTime()
  return day === '' || Number.isNaN(at_ms) ? undefined : at_ms + after_ms
}

function searchOf({ words, from, until }: Typed): FiledSearch {
  const from_ms = momentOf(from, 0)
  const until_ms = momentOf(until, DAY_MS - 1)
  return {
    words: words.trim(),
    ...(from_ms === undefined ? {} : { from_ms }),
    ...(until_ms === undefined ? {} : { until_ms }),
  }
}

/** What was typed, once the typing has stopped for a moment. */
function useSettled(typed: Typed): Typed {
  const [settled, setSettled] = useState(typed)
  useEffect(() => {
    const timer = setTimeout(() => setSettled(typed), TYPING_MS)
    return () => clearTimeout(timer)
  }, [typed])
  return settled
}

export function FiledScreen(): JSX.Element {
  const { desk } = useOffice()
  const [typed, setTyped] = useState(NOTHING)
  const settled = useSettled(typed)
  const search = searchOf(settled)
  const { seen, refresh } = useRoute(() => desk.api.filed(search), 0, `filed ${JSON.stringify(search)}`)
  return (
    <>
      <Head title={o.filed.title} />
      <SearchFields typed={typed} onType={setTyped} />
      <SeenPage seen={seen} refresh={refresh}>
        {(page) => <FiledPages key={JSON.stringify(search)} first={page} search={search} />}
      </SeenPage>
      <TimeZonePart />
    </>
  )
}

function SearchFields(props: { typed: Typed; onType: (typed: Typed) => void }): JSX.Element {
  const { typed, onType } = props
  return (
    <search class="o-search">
      <Field
        name={o.filed.search}
        value={typed.words}
        onType={(words) => onType({ ...typed, words })}
        note={o.filed.searchNote}
      />
      <Field
        name={o.filed.from}
        type="date"
        value={typed.from}
        onType={(from) => onType({ ...typed, from })}
      />
      <Field
        name={o.filed.until}
        type="date"
        value={typed.until}
        onType={(until) => onType({ ...typed, until })}
      />
    </search>
  )
}

type Ask = (search: FiledSearch) => Promise<Answer<FiledPage>>

/** Further pages stand below the first; a new search begins anew. */
function usePages(first: FiledPage, search: FiledSearch, ask: Ask) {
  const [more, setMore] = useState<readonly FiledPage[]>([])
  const [failed, setFailed] = useState(false)
  const asking = useRef(false)
  const pages = [first, ...more]
  const rows = pages.flatMap((page) => page.filed)
  const next = async (): Promise<void> => {
    const after = rows.at(-1)?.dossier
    if (asking.current || after === undefined) return
    asking.current = true
    const answer = await ask({ ...search, after })
    asking.current = false
    setFailed(answer.kind !== 'value')
    if (answer.kind === 'value') setMore((before) => [...before, answer.value])
  }
  return { rows, isMore: pages.at(-1)?.more ?? false, failed, next }
}

const isSearch = (search: FiledSearch): boolean =>
  search.words !== '' || search.from_ms !== undefined || search.until_ms !== undefined

function FiledPages({ first, search }: { first: FiledPage; search: FiledSearch }): JSX.Element {
  const { desk } = useOffice()
  const { rows, isMore, failed, next } = usePages(first, search, desk.api.filed)
  if (rows.length === 0) {
    return isSearch(search) ? (
      <Empty words={o.filed.notFound} next={o.filed.notFoundNext} />
    ) : (
      <Empty words={o.filed.empty} next={o.filed.emptyNext} />
    )
  }
  return (
    <>
      <p class="o-note" role="status">
        {o.filed.shown(rows.length, isMore)}
      </p>
      {rows.map((row: FiledRow) => (
        <FiledCard key={row.dossier} row={row} />
      ))}
      {failed && <p role="alert">{o.act.silentNext}</p>}
      {isMore && (
        <button type="button" class="key key-plain" onClick={() => void next()}>
          <span>{o.filed.more}</span>
        </button>
      )}
    </>
  )
}
