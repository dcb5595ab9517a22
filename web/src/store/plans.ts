/** Pinned heat plans on this phone: their response sets as the office packed them, hashed as read back. */
import { StoreFault } from './fault.ts'
import { sha256Of } from './photos.ts'
import type { Tables } from './tables.ts'
import type { PlanRow, PlanWords } from './types.ts'

export async function planRows(tables: Tables): Promise<PlanRow[]> {
  const here = new Set(await heldSets(tables))
  return (await tables.plans.toArray()).map((row) => ({ ...row, here: here.has(row.sha256) }))
}

async function heldSets(tables: Tables): Promise<string[]> {
  return (await tables.plan_sets.toCollection().primaryKeys()) as string[]
}

/** The list as the office has it now; a set that it names no more is let go. In the caller's transaction. */
export async function putPlanList(tables: Tables, plans: readonly PlanWords[]): Promise<void> {
  await tables.plans.clear()
  await tables.plans.bulkPut([...plans])
  const named = new Set(plans.map(({ sha256 }) => sha256))
  await tables.plan_sets.bulkDelete((await heldSets(tables)).filter((sha256) => !named.has(sha256)))
}

export async function setsMissing(tables: Tables): Promise<string[]> {
  const missing = (await planRows(tables)).filter(({ here }) => !here)
  return [...new Set(missing.map(({ sha256 }) => sha256))]
}

/** StoreFault 'lost' where the disk gives other bytes back than were written. */
export async function keepSet(tables: Tables, sha256: string, bytes: ArrayBuffer): Promise<void> {
  await tables.plan_sets.put({ sha256, bytes })
  const back = (await tables.plan_sets.get(sha256))?.bytes
  if (back !== undefined && (await sha256Of(back)) === sha256) return
  await tables.plan_sets.delete(sha256)
  throw new StoreFault('lost')
}

/** The response set as text; undefined while it is not here. */
export async function setText(tables: Tables, sha256: string): Promise<string | undefined> {
  const packed = (await tables.plan_sets.get(sha256))?.bytes
  if (packed === undefined) return undefined
  const plain = new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip'))
  return new Response(plain).text()
}
