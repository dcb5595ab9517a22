/** Letting go: entries 30 days after filing, photo bytes once a backup or the dossier covers them. */
import type { Tables } from './tables.ts'

const KEPT_AFTER_FILING_MS = 30 * 24 * 3_600_000

/** Whether anything went. */
export async function letGo(tables: Tables, now_ms: number): Promise<boolean> {
  const jobs = await tables.jobs.toArray()
  const filed = jobs.filter((row) => row.filed_heard_ms > 0)
  let gone = false
  for (const { job } of filed) gone = (await dropCoveredPhotos(tables, job)) || gone
  const due = filed.filter((row) => !row.let_go && row.filed_heard_ms + KEPT_AFTER_FILING_MS < now_ms)
  for (const { job } of due) gone = (await dropEntries(tables, job)) || gone
  return gone
}

async function dropCoveredPhotos(tables: Tables, job: string): Promise<boolean> {
  const rows = await tables.photos
    .filter((row) => row.job === job && row.covered && row.where === 'office')
    .toArray()
  let chunks = 0
  for (const { sha256 } of rows) {
    chunks += await tables.photo_chunks
      .where('[sha256+index]')
      .between([sha256, 0], [sha256, Infinity])
      .delete()
  }
  return chunks > 0
}

/** The chain's head stays: a later entry of this phone must not begin the chain anew. */
function dropEntries(tables: Tables, job: string): Promise<boolean> {
  const touched = [tables.entries, tables.outbox, tables.fates, tables.signed_heads, tables.jobs]
  return tables.transaction('rw', touched, async () => {
    if ((await tables.outbox.filter((row) => row.job === job).count()) > 0) return false
    const refused = await tables.fates.where('job').equals(job).count()
    if (refused > 0) return false
    await tables.entries.where('job').equals(job).delete()
    await tables.signed_heads.where('job').equals(job).delete()
    await tables.jobs.update(job, { let_go: true })
    return true
  })
}
