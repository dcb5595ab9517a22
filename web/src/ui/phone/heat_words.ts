// A heat run's next act and phase in words.
import type { RunView } from '../../core/views/heat_view.ts'
import { w } from '../words/en.ts'

/** The act as its key says it: 'Soaked', 'Lift pad U2'. */
export function nextWords(view: RunView): string {
  const { act, leads } = view.next
  switch (act) {
    case 'read':
      return leads === 'soaked' ? w.heat.now.soaked : w.heat.enterReadings
    case 'lift':
    case 'turn_down':
      return w.heat.now.lift(view.next.pad)
    case 'workable':
      return w.heat.now.workable
    case 'off':
      return w.heat.now.off
    case 'cold':
      return w.heat.acts.cold
    default:
      return w.heat.acts[act]
  }
}

/** What the countdown leads to, under the big number. */
export function leadsWords(view: RunView): string {
  const { leads, act } = view.next
  if (leads === 'soak') return w.heat.comes.soak
  if (leads === 'soaked') return w.heat.comes.soaked
  return act === 'lift' ? w.heat.comes.lift(view.next.pad) : ''
}
