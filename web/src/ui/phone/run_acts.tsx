// The other acts of a run: whatever happened can be recorded, now or typed in late; abort asks why.
import type { JSX } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { LaterAct } from '../../core/entries.ts'
import { RUN_REMARKS, sensorFixed } from '../../core/live/remarks.ts'
import type { Card } from '../../core/views/card.ts'
import { heatAct, type RunTime } from '../../core/views/drafts.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { Key } from '../parts/key.tsx'
import { Sheet } from '../parts/sheet.tsx'
import { RecordKey, useWords } from '../parts/words_form.tsx'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { usePhone } from './context.ts'
import { runTimeNow } from './run_clock_hook.ts'

/** What lies over the run: its other acts, words for a remark, the reason of an abort. */
export type SheetOf = '' | 'acts' | 'remark' | 'abort'

type ActsProps = {
  card: Card
  view: RunView
  of: Exclude<SheetOf, ''>
  onSheet: (of: SheetOf) => void
  onClose: () => void
}

type Write = (act: LaterAct, more?: { pad?: string; text?: string }) => void

export function ActsSheet({ card, view, of, onSheet, onClose }: ActsProps): JSX.Element {
  const { record, services } = usePhone()
  const late = useLateTime()
  const write: Write = (act, more = {}) => {
    const at = late.time ?? runTimeNow(services, view)
    void record(card.job, [heatAct(view.run.run, act, at, more)]).then(onClose)
  }
  if (of === 'abort') return <AbortSheet onClose={onClose} onWords={(text) => write('abort', { text })} />
  if (of === 'remark') return <RemarkSheet view={view} late={late.field} write={write} onClose={onClose} />
  return (
    <Sheet title={runWords.otherActsTitle} onClose={onClose}>
      {late.field}
      <div class="keys keys-two">
        {(['soaked', 'workable', 'off', 'cold'] as const).map((act) => (
          <Key key={act} onPress={() => write(act)}>
            {heatWords.acts[act]}
          </Key>
        ))}
        {view.zone.pads.flatMap((pad) =>
          (['turn_down', 'lift'] as const).map((act) => (
            <Key key={`${act}${pad.id}`} onPress={() => write(act, { pad: pad.id })}>
              {heatWords.padAct[act](pad.id)}
            </Key>
          )),
        )}
        <Key onPress={() => onSheet('remark')}>{runWords.remark}</Key>
      </div>
    </Sheet>
  )
}

type RemarkProps = { view: RunView; late: JSX.Element; write: Write; onClose: () => void }

/** What is often remarked is a key; anything else is words. */
function RemarkSheet({ view, late, write, onClose }: RemarkProps): JSX.Element {
  const words = runWords.remarks
  const input = useWords({ label: runWords.remarkOwn, rows: 2 })
  const power = view.alarms.some(({ code }) => code === 'power') ? 'power_back' : 'power_gone'
  return (
    <Sheet title={runWords.remarkTitle} onClose={onClose}>
      {late}
      <div class="keys keys-two">
        {view.padsOn.flatMap(({ id }) =>
          (['setpoint', 'reclamped'] as const).map((one) => (
            <Key key={`${one}${id}`} onPress={() => write('remark', { pad: id, text: RUN_REMARKS[one] })}>
              {words[one](id)}
            </Key>
          )),
        )}
        <Key onPress={() => write('remark', { text: RUN_REMARKS[power] })}>{words[power]}</Key>
        {view.sensors.map(({ id }) => (
          <Key key={id} onPress={() => write('remark', { text: sensorFixed(id) })}>
            {words.sensor_fixed(id)}
          </Key>
        ))}
      </div>
      {input.field}
      <RecordKey input={input} onWords={(text) => write('remark', { text })}>
        {runWords.remarkKey}
      </RecordKey>
    </Sheet>
  )
}

/** Press, then confirm: with a reason, of which the usual ones are keys. */
function AbortSheet({ onClose, onWords }: { onClose: () => void; onWords: (words: string) => void }) {
  const [why, setWhy] = useState('')
  const input = useWords({ label: runWords.abortWhat, rows: 2 })
  const own = input.value.trim() !== ''
  return (
    <Sheet title={runWords.abortTitle} onClose={onClose}>
      <div class="keys keys-two">
        {runWords.abortWhys.map((one) => (
          <Key key={one} pressed={why === one && !own} onPress={() => setWhy(one)}>
            {one}
          </Key>
        ))}
      </div>
      {input.field}
      {why !== '' && !own ? (
        <Key tone="stop" class="key-large" onPress={() => onWords(why)} small={why}>
          {runWords.abortKey}
        </Key>
      ) : (
        <RecordKey input={input} tone="stop" onWords={onWords}>
          {runWords.abortKey}
        </RecordKey>
      )}
    </Sheet>
  )
}

/** Minutes and seconds after switch-on for what happened earlier; empty = now. */
export function useLateTime(): { time: RunTime | undefined; field: JSX.Element } {
  const id = useId()
  const [typed, setTyped] = useState('')
  const run_ms = lateMs(typed)
  const field = (
    <details class="late">
      <summary>{runWords.late}</summary>
      <div class="field">
        <label for={id}>{runWords.lateMinutes}</label>
        <input
          id={id}
          inputMode="text"
          autocomplete="off"
          placeholder="12:30"
          value={typed}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
        <p class="field-fault" role="status">
          {typed !== '' && run_ms === undefined ? runWords.lateHow : ''}
        </p>
      </div>
    </details>
  )
  return { time: run_ms === undefined ? undefined : { run_ms, run_doubt: false, typed_time: true }, field }
}

/** '12', '12:30' or '1:12:30' as milliseconds; undefined for anything else. */
export function lateMs(typed: string): number | undefined {
  const match = /^\s*(?:(\d{1,2}):)?(\d{1,3})(?::([0-5]\d))?\s*$/.exec(typed)
  if (match === null) return undefined
  const [, first, second, third] = match
  if (third !== undefined) return ((Number(first ?? 0) * 60 + Number(second)) * 60 + Number(third)) * 1000
  if (first !== undefined)
    return Number(second) < 60 ? (Number(first) * 60 + Number(second)) * 1000 : undefined
  return Number(second) * 60_000
}
