// A heat run's next act and phase in words.
import type { RunView } from '../../core/views/heat_view.ts'
import { heatWords } from '../words/en_heat.ts'

/** The act as its key says it: 'Soaked', 'Lift pad U2'. */
export function nextWords(view: RunView): string {
  const { act, leads } = view.next
  switch (act) {
    case 'read':
      return leads === 'soaked' ? heatWords.now.soaked : heatWords.enterReadings
    case 'lift':
    case 'turn_down':
      return heatWords.now.lift(view.next.pad)
    case 'workable':
      return heatWords.now.workable
    case 'off':
      return heatWords.now.off
    case 'cold':
      return heatWords.acts.cold
    default:
      return heatWords.acts[act]
  }
}

/** What the countdown leads to, under the big number. */
export function leadsWords(view: RunView): string {
  const { leads, act } = view.next
  if (leads === 'soak') return heatWords.comes.soak
  if (leads === 'soaked') return heatWords.comes.soaked
  return act === 'lift' ? heatWords.comes.lift(view.next.pad) : ''
}
