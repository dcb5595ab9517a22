// How long a run has been on, redrawn each second from the entries and the run clock, never counted here.

import { type Elapsed, elapsedOf } from '../../core/run_elapsed.ts'
import type { Known } from '../../core/views/card.ts'
import type { RunTime } from '../../core/views/drafts.ts'
import { type Due, dueOf, type RunView } from '../../core/views/heat_view.ts'
import type { PhoneServices } from './services.ts'

/** Reading the clock's state in a component makes it redraw with the heartbeat. */
export function elapsedSince({ device, store }: PhoneServices, on: Known): Elapsed {
  const { at_ms, mono_ms, load } = on.entry
  const own = on.entry.device === store.identity()?.device
  const heard = {
    ...(on.received_ms === undefined ? {} : { received_ms: on.received_ms }),
    ...(on.offset_ms === undefined ? {} : { offset_ms: on.offset_ms }),
  }
  return elapsedOf(device.clock.state.value, device.clock.now(), { at_ms, mono_ms, load, own, ...heard })
}

export function runTimeNow(services: PhoneServices, view: RunView): RunTime {
  const { elapsed_ms, doubt } = elapsedSince(services, view.on)
  return { run_ms: Math.round(elapsed_ms), run_doubt: doubt !== 'none', typed_time: false }
}

export type LiveRun = { readonly view: RunView; readonly elapsed: Elapsed; readonly due: Due | undefined }

export function liveRun(services: PhoneServices, view: RunView): LiveRun {
  const elapsed = elapsedSince(services, view.on)
  return { view, elapsed, due: dueOf(view, elapsed.elapsed_ms) }
}
