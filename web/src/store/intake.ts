/** Taking in one answer of the server: fates, entries, heads and cursors in one transaction. */

import { NO_PREV } from '../core/digest.ts'
import type { AdmitBody } from '../core/entries.ts'
import type { FateToKeep, Intake, PulledEntry } from './sync_side.ts'
import type { Tables } from './tables.ts'

export function takeIn(tables: Tables, intake: Intake): Promise<void> {
  const touched = [
    ...[tables.entries, tables.outbox, tables.fates, tables.heads_owed, tables.signed_heads],
    ...[tables.cards, tables.jobs, tables.photos, tables.settings],
  ]
  return tables.transaction('rw', touched, async () => {
    for (const fate of intake.fates) await keepFate(tables, fate)
    await keepPulled(tables, intake.pulled)
    await tables.heads_owed.bulkDelete([...intake.headsSent])
    await tables.signed_heads.bulkPut([...intake.heads])
    await tables.cards.bulkPut([...intake.cards])
    await keepJobs(tables, intake)
    for (const sha256 of intake.covered) await tables.photos.update(sha256, { covered: true })
    await tables.settings.bulkPut([
      { key: 'log', value: intake.log },
      { key: 'heard_ms', value: intake.heard_ms },
    ])
  })
}

async function keepFate(tables: Tables, fate: FateToKeep): Promise<void> {
  await tables.outbox.delete(fate.hash)
  if (fate.fate === 'taken') {
    await tables.fates.delete(fate.hash)
    return
  }
  await tables.fates.put({ ...fate, seen: false })
  if (fate.fate === 'refused') await oweHeadBefore(tables, fate.hash)
}

/** A refused entry breaks the chain of what follows: the entry before it wants a signed head of its own. */
async function oweHeadBefore(tables: Tables, refused: string): Promise<void> {
  const row = await tables.entries.where('hash').equals(refused).first()
  const prev = row === undefined ? NO_PREV : (JSON.parse(row.text) as { prev: string }).prev
  const before = prev === NO_PREV ? undefined : await tables.entries.where('hash').equals(prev).first()
  if (before === undefined) return
  const fate = await tables.fates.get(prev)
  if (fate?.fate === 'refused') return
  const { job, device, seq, hash } = before
  await tables.heads_owed.put({ job, device, seq, hash })
}

async function keepPulled(tables: Tables, pulled: readonly PulledEntry[]): Promise<void> {
  const hashes = pulled.map(({ entry }) => entry.hash)
  const known = new Set((await tables.entries.where('hash').anyOf(hashes).toArray()).map((row) => row.hash))
  const fresh = new Map(
    pulled.filter(({ entry }) => !known.has(entry.hash)).map((one) => [one.entry.hash, one]),
  )
  await tables.entries.bulkAdd([...fresh.values()].map(rowOf))
  for (const { entry } of pulled) {
    if (entry.kind === 'admit') await tables.fates.bulkDelete([...(entry.body as AdmitBody).hashes])
  }
}

function rowOf({ entry, text, received_ms, offset_ms }: PulledEntry) {
  const { job, device, seq, hash } = entry
  const heard = received_ms === undefined ? {} : { received_ms }
  return { job, device, seq, hash, text, ...heard, ...(offset_ms === undefined ? {} : { offset_ms }) }
}

async function keepJobs(tables: Tables, { cursors, gone, filed, pulled, now_ms }: Intake): Promise<void> {
  const moved = new Set(pulled.map(({ entry }) => entry.job))
  for (const [job, cursor] of Object.entries(cursors)) {
    const row = await tables.jobs.get(job)
    const let_go = (row?.let_go ?? false) && !moved.has(job)
    await tables.jobs.put({ job, cursor, gone: false, filed_heard_ms: row?.filed_heard_ms ?? 0, let_go })
  }
  for (const job of gone) await tables.jobs.update(job, { gone: true })
  for (const job of filed) {
    const row = await tables.jobs.get(job)
    if (row?.filed_heard_ms === 0) await tables.jobs.update(job, { filed_heard_ms: now_ms })
  }
}
