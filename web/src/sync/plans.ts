/** Response sets of pinned plans that this phone lacks: fetched one by one, after all records are at the office. */
import { sha256Of } from '../store/photos.ts'
import type { Desk } from './exchange.ts'
import { TransportFault } from './types.ts'

export async function fetchPlanSets({ store, door }: Desk, missing: readonly string[]): Promise<void> {
  for (const sha256 of missing) {
    const path = `/api/heat/responses/${sha256}`
    const answer = await door.ask({ method: 'GET', path, headers: { Accept: 'application/gzip' } })
    if (answer.status !== 200) continue // unpinned meanwhile: the next bundle does not name it
    if ((await sha256Of(answer.bytes)) !== sha256)
      throw new TransportFault(`${path}: other bytes than asked for`)
    await store.sync.keepPlanSet(sha256, answer.bytes)
  }
}
