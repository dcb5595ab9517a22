// Pulls one job's log into the page: entries after the cursor, and the methods that they name.
import { parseStrict } from '../core/canonical_read.ts'
import type { Entry } from '../core/entries.ts'
import type { MethodDoc } from '../core/method.ts'
import {
  digestsNamed,
  EMPTY_LOG,
  type JobLog,
  type LoggedEntry,
  withEntries,
} from '../core/views/office_log.ts'
import type { Answer } from './answer.ts'
import type { OfficeApi } from './client.ts'
import type { EntriesPage, EntryItem } from './rows.ts'

type Held = { log: JobLog; cursor: number; store: string }

function logged(item: EntryItem): LoggedEntry {
  const entry = parseStrict(item.text) as unknown as Entry
  const offset = typeof item.offset_ms === 'number' ? { offset_ms: item.offset_ms } : {}
  return { entry, received_ms: item.received_ms, ...offset }
}

function afterPage(held: Held, page: EntriesPage): Held {
  const log = withEntries(held.log, page.entries.map(logged))
  return {
    cursor: page.cursor,
    store: page.log,
    log: { ...log, photosHere: new Set(page.photos_here), thumbsHere: new Set(page.thumbs_here) },
  }
}

const beginning = (job: string): Held => ({ log: { ...EMPTY_LOG, job }, cursor: 0, store: '' })

// A store put back from a copy counts anew, so that what the page holds may not be what it holds.
const isOtherStore = (held: Held, page: EntriesPage): boolean =>
  held.store !== '' && (page.log !== held.store || page.cursor < held.cursor)

/** A loader for a feed: each call brings the log up to date and answers with the whole of it. */
export function jobLoader(api: OfficeApi, job: string): () => Promise<Answer<JobLog>> {
  let held = beginning(job)

  const pull = async (): Promise<Answer<JobLog>> => {
    const answer = await api.entries(job, held.cursor)
    if (answer.kind !== 'value') return answer
    if (isOtherStore(held, answer.value)) {
      held = beginning(job)
      return pull()
    }
    held = afterPage(held, answer.value)
    return answer.value.more ? pull() : { kind: 'value', value: held.log }
  }
  const fetchMethods = async (): Promise<void> => {
    const wanted = digestsNamed(held.log).filter((digest) => !Object.hasOwn(held.log.methods, digest))
    for (const digest of wanted) {
      const text = await api.methodText(digest)
      if (text.kind !== 'value') continue
      const document = JSON.parse(text.value) as MethodDoc
      held = { ...held, log: { ...held.log, methods: { ...held.log.methods, [digest]: document } } }
    }
  }
  return async () => {
    const answer = await pull()
    if (answer.kind !== 'value') return answer
    await fetchMethods()
    return { kind: 'value', value: held.log }
  }
}
