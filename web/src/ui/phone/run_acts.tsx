// The other acts of a run: whatever happened can be recorded, now or typed in late; abort asks why.
import type { JSX } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { LaterAct } from '../../core/entries.ts'
import type { Card } from '../../core/views/card.ts'
import { heatAct, type RunTime } from '../../core/views/drafts.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { Key } from '../parts/key.tsx'
import { Sheet } from '../parts/sheet.tsx'
import { RecordKey, useWords } from '../parts/words_form.tsx'
import { w } from '../words/en.ts'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { usePhone } from './context.ts'
import { runTimeNow } from './run_clock_hook.ts'

type ActsProps = { card: Card; view: RunView; onClose: () => void }

export function ActsSheet({ card, view, onClose }: ActsProps): JSX.Element {
  const { record, services } = usePhone()
  const [words, setWords] = useState<'' | 'abort' | 'remark'>('')
  const late = useLateTime()
  const write = (act: LaterAct, more: { pad?: string; text?: string } = {}) => {
    const at = late.time ?? runTimeNow(services, view)
    void record(card.job, [heatAct(view.run.run, act, at, more)]).then(onClose)
  }
  if (words !== '')
    return <ActWords act={words} onClose={onClose} onWords={(text) => write(words, { text })} />
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
        <Key onPress={() => setWords('remark')}>{runWords.remark}</Key>
        <Key tone="stop" onPress={() => setWords('abort')}>
          {runWords.abort}
        </Key>
      </div>
    </Sheet>
  )
}

type WordsProps = { act: 'abort' | 'remark'; onClose: () => void; onWords: (words: string) => void }

function ActWords({ act, onClose, onWords }: WordsProps): JSX.Element {
  const abort = act === 'abort'
  const input = useWords({ label: abort ? runWords.abortWhat : w.common.remark })
  return (
    <Sheet title={abort ? runWords.abortTitle : runWords.remarkTitle} onClose={onClose}>
      {input.field}
      <RecordKey input={input} tone={abort ? 'stop' : 'main'} onWords={onWords}>
        {abort ? runWords.abortKey : runWords.remarkKey}
      </RecordKey>
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
