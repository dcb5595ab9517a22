// A heat run's next act and phase in words.
import type { RunView } from '../../core/views/heat_view.ts'
import { heatWords } from '../words/en_heat.ts'

/** The act as its key says it: 'Soaked', 'Lift pad U2'. */
export function nextWords(view: RunView): string {
  const { act, leads, pad, permille } = view.next
  switch (act) {
    case 'read':
      if (leads === 'soaked') return heatWords.now.soaked
      return leads === 'soak' ? heatWords.enterReadings : heatWords.now.read
    case 'lift':
    case 'turn_down':
      if (permille !== undefined) return heatWords.downTo(pad, permille)
      return heatWords.now[act](pad)
    case 'workable':
      return heatWords.now.workable
    case 'off':
      return heatWords.now.off
    case 'cold':
      return heatWords.acts.cold
    case 'remark':
      return leads === 'contact' ? heatWords.now.press(pad) : heatWords.acts.remark
    default:
      return heatWords.acts[act]
  }
}

/** What the countdown leads to, under the big number. */
export function leadsWords(view: RunView): string {
  const { leads, act, pad, permille } = view.next
  if (leads === 'soak') return heatWords.comes.soak
  if (leads === 'soaked') return heatWords.comes.soaked
  if (act === 'read') return heatWords.comes.read
  if (permille !== undefined) return heatWords.thenDownTo(pad, permille)
  return act === 'lift' || act === 'turn_down' ? heatWords.comes[act](pad) : ''
}

/** In a cure nothing is workable: it is soaked. */
export function phaseWords({ phase, ask }: RunView): string {
  return phase === 'workable' && ask.purpose === 'cure' ? heatWords.soakedPhase : heatWords.phase[phase]
}
