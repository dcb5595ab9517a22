// Standing troubles in one band: revoked, update needed, a store that is full.
import type { JSX } from 'preact'
import type { StoreHealth } from '../../store/types.ts'
import type { SyncState } from '../../sync/types.ts'
import { Key } from '../parts/key.tsx'
import { w } from '../words/en.ts'

export function TroubleBand(props: {
  state: SyncState
  health: StoreHealth
  unknownMet: boolean
  onStartAnew: () => void
}): JSX.Element | null {
  const words = w.phone.trouble
  const lines: string[] = []
  if (props.state === 'revoked') lines.push(`${words.revoked.title}. ${words.revoked.what}`)
  if (props.state === 'started_anew') lines.push(words.startedAnew)
  if (props.state === 'update_needed') lines.push(words.updateNeeded)
  if (props.unknownMet) lines.push(w.card.updateNeeded)
  if (props.health === 'full') lines.push(`${words.full.title}. ${words.full.mend}`)
  if (lines.length === 0) return null
  return (
    <div class="note-band" role="status">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {props.state === 'started_anew' && <Key onPress={props.onStartAnew}>{words.startAnew}</Key>}
    </div>
  )
}
