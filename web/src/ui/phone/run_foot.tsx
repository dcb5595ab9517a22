// The keys of a run at the thumb: what comes next, then readings, silence, remark, the other acts, abort.
import type { JSX } from 'preact'
import type { LaterAct } from '../../core/entries.ts'
import { downTo, RUN_REMARKS } from '../../core/live/remarks.ts'
import type { Card } from '../../core/views/card.ts'
import { heard, heatAct } from '../../core/views/drafts.ts'
import type { RunView } from '../../core/views/heat_view.ts'
import { Key } from '../parts/key.tsx'
import type { MarkName } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { heatWords } from '../words/en_heat.ts'
import { runWords } from '../words/en_run.ts'
import { usePhone } from './context.ts'
import { paths } from './router.ts'
import type { SheetOf } from './run_acts.tsx'
import { type LiveRun, runTimeNow } from './run_clock_hook.ts'

const SILENT_S = 60

type FootProps = {
  card: Card
  live: LiveRun
  onGo: (path: string) => void
  onSheet: (of: SheetOf) => void
}

export function RunFoot({ card, live, onGo, onSheet }: FootProps): JSX.Element {
  const { record, services } = usePhone()
  const { view, due } = live
  const { run } = view.run
  const { next, phase } = view
  const act = (what: LaterAct, pad = '', text = '') =>
    void record(card.job, [heatAct(run, what, runTimeNow(services, view), { pad, text })])
  const silence = () => {
    services.device.sound.silence(SILENT_S * 1000)
    void record(card.job, [heard(run, next.leads || next.act, SILENT_S)])
  }
  const read = () => onGo(paths.runReadings(card.job, run))
  return (
    <>
      <MainKey view={view} onAct={act} onRead={read} onBack={() => onGo(paths.card(card.job))} />
      <div class="foot-row">
        {next.act === 'lift' && !view.run.turned_down.includes(next.pad) && (
          <Key onPress={() => act('turn_down', next.pad)}>{heatWords.padAct.turn_down(next.pad)}</Key>
        )}
        {next.act !== 'read' && phase !== 'over' && <Key onPress={read}>{heatWords.enterReadings}</Key>}
        {due?.due && <Key onPress={silence}>{runWords.silent(SILENT_S)}</Key>}
        {next.act === 'read' && !due?.due && <Key onPress={() => onSheet('remark')}>{runWords.remark}</Key>}
        {phase === 'aborted' && (
          <Key onPress={() => onGo(paths.ask(card.job, view.run.method, view.run.step, view.run.ask))}>
            {runWords.newRun}
          </Key>
        )}
        <Key onPress={() => onSheet('acts')}>{runWords.otherActs}</Key>
        {phase !== 'over' && phase !== 'aborted' && (
          <Key tone="stop" onPress={() => onSheet('abort')}>
            {runWords.abort}
          </Key>
        )}
      </div>
    </>
  )
}

type MainProps = {
  view: RunView
  onAct: (act: LaterAct, pad: string, text?: string) => void
  onRead: () => void
  onBack: () => void
}

function MainKey({ view, onAct, onRead, onBack }: MainProps): JSX.Element {
  const { act, pad, leads, permille } = view.next
  if (leads === 'contact') {
    return (
      <Key tone="main" onPress={() => onAct('remark', pad, RUN_REMARKS.reclamped)}>
        {runWords.remarks.reclamped(pad)}
      </Key>
    )
  }
  if (view.phase === 'over') {
    return (
      <Key tone="main" onPress={onBack}>
        {w.card.held.backToCard}
      </Key>
    )
  }
  if (act === 'read') {
    return (
      <Key tone="main" onPress={onRead}>
        {heatWords.enterReadings}
      </Key>
    )
  }
  const mark: MarkName | undefined = act === 'lift' ? 'lift' : act === 'turn_down' ? 'lower' : undefined
  return (
    <Key
      tone="main"
      {...(mark === undefined ? {} : { mark })}
      onPress={() => onAct(act, pad, permille === undefined ? '' : downTo(permille))}
    >
      {permille === undefined ? doneWords(act, pad) : heatWords.isDownTo(pad, permille)}
    </Key>
  )
}

/** The key says what is recorded: it has happened. */
function doneWords(act: LaterAct, pad: string): string {
  return act === 'lift' || act === 'turn_down' ? heatWords.padAct[act](pad) : heatWords.acts[act]
}
