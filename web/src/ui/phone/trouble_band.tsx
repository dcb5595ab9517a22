// Standing troubles in one band: cut off from the office, update needed, a store that is full.
import type { JSX } from 'preact'
import type { StoreHealth } from '../../store/types.ts'
import type { SyncState } from '../../sync/types.ts'
import { Key, KeyLink } from '../parts/key.tsx'
import { Mark } from '../parts/mark.tsx'
import { troubleWords } from '../words/en_trouble.ts'
import { path, paths } from './router.ts'
import './trouble.css'

export function TroubleBand(props: {
  state: SyncState
  health: StoreHealth
  unknownMet: boolean
  /** What only this phone has: it is handed in before the phone begins anew. */
  waiting: number
  onStartAnew: () => void
}): JSX.Element | null {
  const words = troubleWords
  const lines: (readonly [title: string, what: string])[] = []
  if (props.state === 'revoked') lines.push([words.revoked.title, words.revoked.what])
  if (props.state === 'started_anew') lines.push([words.startedAnew.title, words.startedAnew.what])
  if (isCutOff(props.state) && props.waiting > 0) lines.push(['', words.handInFirst])
  if (props.state === 'update_needed') lines.push([words.updateNeeded.title, words.updateNeeded.what])
  if (props.unknownMet) lines.push(['', troubleWords.unknownMet])
  if (props.health === 'full') lines.push([words.full.title, words.full.mend])
  if (lines.length === 0) return null
  return (
    <div class="trouble-band" role="status">
      <span class="trouble-mark">
        <Mark name="finding" />
      </span>
      {lines.map(([title, what]) => (
        <p key={what}>
          {title !== '' && <strong>{title}</strong>}
          {what}
        </p>
      ))}
      {isCutOff(props.state) && <WayOn waiting={props.waiting} onStartAnew={props.onStartAnew} />}
    </div>
  )
}

/** The office takes nothing more from this phone as it is. */
export function isCutOff(state: SyncState): boolean {
  return state === 'revoked' || state === 'started_anew'
}

function WayOn({ waiting, onStartAnew }: { waiting: number; onStartAnew: () => void }): JSX.Element | null {
  const words = troubleWords
  if (waiting === 0) return <Key onPress={onStartAnew}>{words.startAnew}</Key>
  return path.value === paths.handIn ? null : <KeyLink href={paths.handIn}>{words.handIn}</KeyLink>
}
