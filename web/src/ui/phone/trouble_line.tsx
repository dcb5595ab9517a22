// Why the office did not hear this phone, in one line; fetched when it did not.
import type { JSX } from 'preact'
import type { SyncStatus } from '../../sync/types.ts'
import { troubleWords } from '../words/en_trouble.ts'

export function TroubleSaid({ status }: { status: SyncStatus }): JSX.Element {
  return <>{saidOf(status)}</>
}

function saidOf(status: SyncStatus): string {
  const words = troubleWords
  switch (status.state) {
    case 'refused':
      return `${words.refusedSync} ${status.trouble.message}`
    case 'revoked':
      return words.revoked.title
    case 'not_paired':
      return words.unpaired.title
    case 'started_anew':
      return `${words.startedAnew.title}. ${words.startedAnew.what}`
    case 'update_needed':
      return `${words.updateNeeded.title}. ${words.updateNeeded.what}`
    default:
      return ''
  }
}
