/** Readings of a heat run that were taken in one go stand in one row of the time line. */
import type { Entry } from '../entries.ts'
import type { JobLog } from './office_log.ts'
import type { TimeItem } from './office_timeline.ts'

/** A person who goes round the sensors once takes no longer. */
const ONE_GO_MS = 60_000

function runOf(log: JobLog, item: TimeItem): string {
  const body = log.byHash.get(item.hash)?.entry.body as Entry['body'] & { readonly run?: string }
  return item.kind === 'reading' && item.struck === undefined ? (body.run ?? '') : ''
}

const marksOf = (item: TimeItem): string =>
  JSON.stringify([
    item.device,
    item.by,
    item.late,
    item.outOfOrder,
    item.typed_ms === undefined,
    item.aside,
    item.unknown,
    item.afterFiling,
  ])

function isOneGo(log: JobLog, newer: TimeItem, item: TimeItem): boolean {
  const run = runOf(log, newer)
  const near = newer.at_ms - item.at_ms <= ONE_GO_MS
  return run !== '' && near && runOf(log, item) === run && marksOf(item) === marksOf(newer)
}

/** Newest first, as they are given: each row with the readings that stand in it, itself the first. */
export function inOneGo(log: JobLog, items: readonly TimeItem[]): readonly (readonly TimeItem[])[] {
  const rows: TimeItem[][] = []
  for (const item of items) {
    const row = rows.at(-1)
    if (row?.[0] !== undefined && isOneGo(log, row[0], item)) row.push(item)
    else rows.push([item])
  }
  return rows
}
