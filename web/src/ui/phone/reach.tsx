// How the office is reached: the last contact, in one line; being offline is no error.
import type { JSX } from 'preact'
import type { SyncStatus } from '../../sync/types.ts'
import { w } from '../words/en.ts'
import { reachWords as words } from '../words/en_reach.ts'
import { when } from '../words/format.ts'
import { laterPart } from './later_part.tsx'

const TroubleSaid = laterPart(async () => (await import('./trouble_line.tsx')).TroubleSaid)

/** What the last contact was, in one line; being offline is no error. */
export function Reach({ status, now_ms }: { status: SyncStatus; now_ms: number }): JSX.Element {
  return (
    <div>
      <p>
        <strong>{inOneLine(status, now_ms)}</strong>
      </p>
      <p>{status.state === 'offline' ? words.goOn : <TroubleLine status={status} />}</p>
    </div>
  )
}

function inOneLine(status: SyncStatus, now_ms: number): string {
  if (!status.shopNetwork) return words.switchedOff
  if (status.state === 'syncing') return w.phone.syncing
  if (status.heard_ms === 0) return words.never
  const at = when(status.heard_ms, now_ms)
  return status.state === 'offline' ? words.offline(at) : words.idle(at)
}

function TroubleLine({ status }: { status: SyncStatus }): JSX.Element | null {
  return status.state === 'idle' || status.state === 'syncing' ? null : <TroubleSaid status={status} />
}
