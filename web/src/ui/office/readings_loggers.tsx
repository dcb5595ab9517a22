// The loggers of a run: files that were read in, adding one, and keys of those that write by themselves.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { JobLog } from '../../core/views/office_log.ts'
import type { RunView } from '../../core/views/office_runs.ts'
import { type ReadingFileRow, readingFileUrl } from '../../office_api/readings.ts'
import { when } from '../words/format.ts'
import { readingWords as words } from '../words/office_en_readings.ts'
import { useMinute } from './office_clock.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Sheet } from './page_parts.tsx'
import { ReadingsFile } from './readings_file.tsx'
import { ReadingsKeys } from './readings_keys.tsx'
import { UnreadRows } from './readings_unread.tsx'

const EVERY_MS = 15_000

type Props = { log: JobLog; run: RunView; onRead: () => void }

export function ReadingsLoggers({ log, run, onRead }: Props): JSX.Element {
  const { desk } = useOffice()
  const { job } = log
  const { seen, refresh } = useRoute(() => desk.api.readingFiles(job), EVERY_MS, `reading files ${job}`)
  const [open, setOpen] = useState<ReadingFileRow | 'new'>()
  const files = (seen.value?.files ?? []).filter((file) => file.run === run.run)
  const done = (): void => {
    refresh()
    onRead()
  }
  return (
    <section class="o-loggers" aria-label={words.loggers}>
      <h4>{words.loggers}</h4>
      {files.length > 0 && (
        <ul class="o-plain" aria-label={words.files}>
          {files.map((file) => (
            <FileRow key={file.id} file={file} onGoOn={() => setOpen(file)} />
          ))}
        </ul>
      )}
      <button type="button" class="key key-plain" onClick={() => setOpen('new')}>
        <span>{words.add}</span>
      </button>
      <ReadingsKeys job={job} run={run.run} />
      {open && (
        <Sheet title={words.addTitle} onClose={() => setOpen(undefined)}>
          <ReadingsFile
            job={job}
            run={run}
            loggers={seen.value?.loggers ?? []}
            file={open === 'new' ? undefined : open}
            onDone={done}
          />
        </Sheet>
      )}
    </section>
  )
}

function FileRow({ file, onGoOn }: { file: ReadingFileRow; onGoOn: () => void }): JSX.Element {
  const now_ms = useMinute()
  const { name, logger, taken, read_ms, added_ms } = file
  return (
    <li class="o-reading-file">
      <p>
        <a class="o-link" href={readingFileUrl(file.id)} download={name} aria-label={words.save(name)}>
          {name}
        </a>
        <br />
        <small>
          {read_ms > 0
            ? words.file(taken, logger, when(read_ms, now_ms))
            : words.notRead(when(added_ms, now_ms))}
        </small>
      </p>
      {read_ms === 0 && (
        <button type="button" class="key key-plain" onClick={onGoOn}>
          <span>{words.goOn(name)}</span>
        </button>
      )}
      {file.unread_total > 0 && (
        <details>
          <summary>{words.unreadOf(file.unread_total)}</summary>
          <UnreadRows unread={file.unread} total={file.unread_total} />
        </details>
      )}
    </li>
  )
}
