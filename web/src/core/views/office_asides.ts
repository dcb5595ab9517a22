/** What was set aside on arrival: kept whole, not folded, for the office to admit. */
import type { CardState } from '../state.ts'
import { entriesOf, type JobLog, madeAtMs } from './office_log.ts'
import { type What, whatOf } from './office_what.ts'

export type AsideView = {
  readonly hash: string
  readonly code: string
  readonly what: What
  readonly by: string
  readonly device: string
  readonly at_ms: number
  readonly received_ms: number
}

export function asideViews(log: JobLog, state: CardState): readonly AsideView[] {
  const codes = new Map(
    entriesOf(log, 'aside').flatMap((entry) =>
      entry.body.hashes.map((hash) => [hash, entry.body.code] as const),
    ),
  )
  return state.aside.flatMap((hash) => {
    const item = log.byHash.get(hash)
    if (item === undefined) return []
    const { by, device } = item.entry
    const what = whatOf(log, item.entry)
    return [
      {
        hash,
        code: codes.get(hash) ?? '',
        what,
        by,
        device,
        at_ms: madeAtMs(item),
        received_ms: item.received_ms,
      },
    ]
  })
}
