// Keys of loggers that write into a run by themselves: made here, shown once, ended here.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { LOGGER_URL, type LoggerKeyRow } from '../../office_api/readings.ts'
import { when } from '../words/format.ts'
import { readingWords as words } from '../words/office_en_readings.ts'
import { NAME_LENGTH } from './file_name.ts'
import { Field, Form } from './forms.tsx'
import { useMinute } from './office_clock.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Sheet } from './page_parts.tsx'
import { SureKey } from './sure_key.tsx'
import { useAct } from './use_act.ts'

const EVERY_MS = 15_000
const SAMPLE =
  '{"unit": "C", "clock_ms": 1790000000000,\n "rows": [{"at_ms": 1789999990000, "readings": {"a": 131.5, "b": 128.0}}]}'

export function ReadingsKeys({ job, run }: { job: string; run: string }): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(() => desk.api.loggerKeys(job), EVERY_MS, `logger keys ${job}`)
  const [making, setMaking] = useState(false)
  const keys = (seen.value ?? []).filter((key) => key.run === run)
  return (
    <>
      {keys.length > 0 && (
        <ul class="o-plain" aria-label={words.keys}>
          {keys.map((key) => (
            <KeyRow key={key.id} row={key} refresh={refresh} />
          ))}
        </ul>
      )}
      <button type="button" class="key key-plain" onClick={() => setMaking(true)}>
        <span>{words.letIn}</span>
      </button>
      {making && (
        <Sheet title={words.letInTitle} onClose={() => setMaking(false)}>
          <MakeKey job={job} run={run} refresh={refresh} />
        </Sheet>
      )}
    </>
  )
}

function KeyRow({ row, refresh }: { row: LoggerKeyRow; refresh: () => void }): JSX.Element {
  const { desk } = useOffice()
  const now_ms = useMinute()
  const act = useAct()
  const heard = row.heard_ms > 0 ? when(row.heard_ms, now_ms) : ''
  return (
    <li class="o-reading-file">
      <p>
        {row.logger}
        <br />
        <small>
          {words.keyLine(row.readings, when(row.made_ms, now_ms), heard)}
          {row.ended_ms > 0 && `, ${words.keyEnded(when(row.ended_ms, now_ms))}`}
        </small>
      </p>
      {row.ended_ms === 0 && (
        <SureKey
          act={act}
          name={words.endKey}
          label={words.end(row.logger)}
          sure={words.endSure(row.logger)}
          keep={words.keep}
          onSure={() => void act.run(() => desk.api.endLoggerKey(row.id), refresh)}
        />
      )}
    </li>
  )
}

function MakeKey({ job, run, refresh }: { job: string; run: string; refresh: () => void }): JSX.Element {
  const { desk } = useOffice()
  const [logger, setLogger] = useState('')
  const [key, setKey] = useState('')
  const act = useAct()
  const make = async (): Promise<void> => {
    const name = logger.trim()
    if (name === '') return act.lack(words.needsLogger)
    await act.run(
      () => desk.api.makeLoggerKey(job, { run, logger: name }),
      (made) => {
        setKey(made.key)
        refresh()
      },
    )
  }
  if (key !== '') return <Shown secret={key} />
  return (
    <Form act={act} submit={words.letInKey} onSubmit={() => void make()}>
      <p>{words.letInNote}</p>
      <Field name={words.logger} value={logger} onType={setLogger} max={NAME_LENGTH} />
    </Form>
  )
}

function Shown({ secret }: { secret: string }): JSX.Element {
  return (
    <div class="o-key-shown" role="status">
      <p>
        <strong>{words.shown}</strong>
      </p>
      <p class="o-hex">{secret}</p>
      <p>
        {words.how} <span class="o-hex">POST {`${location.origin}${LOGGER_URL}`}</span> {words.header}{' '}
        <span class="o-hex">Authorization: Bearer …</span> {words.body}
      </p>
      <pre class="o-hex">{SAMPLE}</pre>
      <p class="o-note">{words.bodyNote}</p>
    </div>
  )
}
