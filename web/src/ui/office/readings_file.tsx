// A logger's file on its way into a run: handed in, its columns told, looked at, read in part by part.
import type { JSX } from 'preact'
import { useEffect, useId, useState } from 'preact/hooks'
import type { RunView } from '../../core/views/office_runs.ts'
import { proposedAtOn } from '../../core/views/reading_columns.ts'
import type { Answer } from '../../office_api/answer.ts'
import type { Desk } from '../../office_api/desk.ts'
import type { ColumnMap, LookedAt, ReadingFileRow } from '../../office_api/readings.ts'
import { clockTime } from '../words/format.ts'
import { readingWords as words } from '../words/office_en_readings.ts'
import { fileName, NAME_LENGTH } from './file_name.ts'
import { ActWords, Field, FileField, Form } from './forms.tsx'
import { useOffice } from './office_desk.ts'
import { ReadingsColumns, ReadingsForm } from './readings_columns.tsx'
import { ReadingsPreview } from './readings_preview.tsx'
import { useAct } from './use_act.ts'

const MOST_BYTES = 8_000_000
const LOOK_AFTER_MS = 250

type Props = {
  job: string
  run: RunView
  loggers: readonly string[]
  /** One that was handed in before and not read in. */
  file: ReadingFileRow | undefined
  onDone: () => void
}

export function ReadingsFile({ file, ...props }: Props): JSX.Element {
  const [kept, setKept] = useState(file)
  return kept ? <Told {...props} file={kept} /> : <HandIn {...props} onKept={setKept} />
}

type HandInProps = Omit<Props, 'file' | 'onDone' | 'loggers'> & { onKept: (file: ReadingFileRow) => void }

function HandIn({ job, run, onKept }: HandInProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const add = async ([picked]: readonly File[]): Promise<void> => {
    if (picked === undefined) return
    if (picked.size > MOST_BYTES) return act.lack(words.tooLarge)
    const named = { name: fileName(picked.name, 'readings.csv'), run: run.run }
    await act.run((stop) => desk.api.addReadingFile(job, named, picked, stop), onKept)
  }
  return (
    <>
      <FileField name={words.pick} accept=".csv,.txt,.tsv,text/csv" onPick={(files) => void add(files)} />
      <p class="o-note">{words.limits}</p>
      {act.state.at === 'working' ? <p role="status">{words.handing}</p> : <ActWords state={act.state} />}
    </>
  )
}

type Asked = { readonly mapping: ColumnMap } | { readonly logger: string }
/** `fresh`: what was looked at is what is asked now. */
type Look = {
  readonly looked?: LookedAt
  readonly fault: Answer<never> | undefined
  readonly fresh: boolean
}

/** Looks at the file again a moment after something was told; the newest question's answer stands. */
function useLook(desk: Desk, file: string, asked: Asked, onLooked: (looked: LookedAt) => void): Look {
  const key = JSON.stringify(asked)
  const [look, setLook] = useState<Omit<Look, 'fresh'> & { of: string }>({ fault: undefined, of: '' })
  useEffect(() => {
    const stopper = new AbortController()
    const ask = async (): Promise<void> => {
      const answer = await desk.api.lookAtFile(file, asked, stopper.signal)
      if (stopper.signal.aborted) return
      if (answer.kind === 'value') onLooked(answer.value)
      setLook((before) =>
        answer.kind === 'value'
          ? { looked: answer.value, fault: undefined, of: key }
          : { ...before, fault: answer, of: key },
      )
    }
    const cancel = desk.beat.after('mapping' in asked ? LOOK_AFTER_MS : 0, () => void ask())
    return () => {
      cancel()
      stopper.abort()
    }
  }, [desk, file, key])
  return { ...look, fresh: look.of === key }
}

function Told({ run, loggers, file, onDone }: Omit<Props, 'file'> & { file: ReadingFileRow }): JSX.Element {
  const { desk } = useOffice()
  const [asked, setAsked] = useState<Asked>({ logger: file.logger })
  const [remembered, setRemembered] = useState(false)
  const { looked, fault, fresh } = useLook(desk, file.id, asked, (found) => {
    if ('mapping' in asked) return
    setRemembered(found.remembered)
    const { mapping } = found
    const at_on = proposedAtOn(mapping.time_form, found.on_ms)
    setAsked({ mapping: { ...mapping, logger: asked.logger, at_on } })
  })
  if (looked === undefined || !('mapping' in asked))
    return fault ? <Fault fault={fault} /> : <p role="status">{words.asking}</p>
  const { mapping } = asked
  const change = (next: ColumnMap): void => {
    const at_on =
      next.time_form === mapping.time_form ? next.at_on : proposedAtOn(next.time_form, looked.on_ms)
    setAsked({ mapping: { ...next, at_on } })
  }
  const name = (logger: string): void =>
    setAsked(loggers.includes(logger) ? { logger } : { mapping: { ...mapping, logger } })
  return (
    <>
      <Logger name={mapping.logger} loggers={loggers} onName={name} />
      <p class="o-note">{remembered ? words.remembered : words.guessed}</p>
      <ReadingsColumns looked={looked} mapping={mapping} sensors={run.sensors} onChange={change} />
      <ReadingsForm looked={looked} mapping={mapping} onChange={change} />
      <Field
        name={words.atOn}
        value={mapping.at_on}
        onType={(at_on) => setAsked({ mapping: { ...mapping, at_on } })}
        note={words.atOnNote(clockTime(looked.on_ms))}
        max={60}
      />
      {fault ? <Fault fault={fault} /> : <ReadingsPreview looked={looked} fresh={fresh} />}
      <TakeIn
        file={file.id}
        mapping={mapping}
        looked={looked}
        ready={fresh && fault === undefined}
        onDone={onDone}
      />
    </>
  )
}

function Fault({ fault }: { fault: Answer<never> }): JSX.Element {
  if (fault.kind === 'value') return <p />
  return (
    <ActWords
      state={fault.kind === 'refused' ? { at: 'refused', refusal: fault.refusal } : { at: fault.kind }}
    />
  )
}

type LoggerProps = { name: string; loggers: readonly string[]; onName: (name: string) => void }

function Logger({ name, loggers, onName }: LoggerProps): JSX.Element {
  const id = useId()
  return (
    <div class="o-field">
      <label for={id}>{words.logger}</label>
      <input
        id={id}
        type="text"
        list={`${id}-known`}
        value={name}
        maxLength={NAME_LENGTH}
        autocomplete="off"
        aria-describedby={`${id}-note`}
        onInput={(event) => onName(event.currentTarget.value)}
      />
      <datalist id={`${id}-known`}>
        {loggers.map((one) => (
          <option key={one} value={one} />
        ))}
      </datalist>
      <p id={`${id}-note`} class="o-note">
        {words.loggerNote}
      </p>
    </div>
  )
}

type Far = { readonly rows: number; readonly all: number; readonly taken: number; readonly known: number }
type TakeProps = {
  file: string
  mapping: ColumnMap
  looked: LookedAt
  ready: boolean
  onDone: () => void
}

function TakeIn({ file, mapping, looked, ready, onDone }: TakeProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const [far, setFar] = useState<Far>()
  const take = async (): Promise<void> => {
    const lack = lackOf(mapping, looked)
    if (lack) return act.lack(lack)
    if (!ready) return act.lack(words.asking)
    await act.run((stop) => takeAll(desk, file, mapping, stop, setFar), onDone)
  }
  const working = act.state.at === 'working'
  if (act.state.at === 'done' && far) return <p role="status">{words.done(far.taken, far.known)}</p>
  const left = (looked.read?.readings ?? 0) - (looked.read?.known ?? 0)
  return (
    <Form
      act={act}
      submit={words.take(left)}
      working={far ? words.taking(far.rows, far.all) : words.handing}
      stoppable
      onSubmit={() => void take()}
    >
      {working && far && <progress value={far.rows} max={far.all} aria-label={words.progress} />}
      {act.state.at === 'cancelled' && <p>{words.stopped}</p>}
    </Form>
  )
}

function lackOf({ logger, sensors }: ColumnMap, looked: LookedAt): string {
  if (logger.trim() === '') return words.needsLogger
  if (sensors.length === 0) return words.needsSensor
  return looked.read === null ? words.needsTime : ''
}

/** Part by part, telling how far it is; what was taken stays where it is stopped. */
async function takeAll(
  desk: Desk,
  file: string,
  mapping: ColumnMap,
  stop: AbortSignal,
  onFar: (far: Far) => void,
): Promise<Answer<Far>> {
  let far: Far = { rows: 0, all: 0, taken: 0, known: 0 }
  for (let row = 0; ; ) {
    const answer = await desk.api.takeFile(file, { ...mapping, logger: mapping.logger.trim() }, row, stop)
    if (answer.kind !== 'value') return answer
    const { rows, next_row, readings, known } = answer.value
    far = { rows: next_row || rows, all: rows, taken: far.taken + readings, known: far.known + known }
    onFar(far)
    if (next_row === 0) return { kind: 'value', value: far }
    row = next_row
  }
}
