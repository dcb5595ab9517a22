/** Files that this phone lacks: fetched one by one, after all records are at the office. */
import { sha256Of } from '../store/photos.ts'
import type { Desk } from './exchange.ts'
import { TransportFault } from './types.ts'

/** Makers' instructions. */
export function fetchPapers(desk: Desk, missing: readonly string[]): Promise<void> {
  const { keepPaper } = desk.store.sync
  return fetchEach(desk, missing, { at: '/api/papers', type: 'application/pdf', keep: keepPaper })
}

/** Response sets of pinned plans. */
export function fetchPlanSets(desk: Desk, missing: readonly string[]): Promise<void> {
  const { keepPlanSet } = desk.store.sync
  return fetchEach(desk, missing, { at: '/api/heat/responses', type: 'application/gzip', keep: keepPlanSet })
}

type Files = {
  readonly at: string
  readonly type: string
  readonly keep: (sha256: string, bytes: ArrayBuffer) => Promise<void>
}

async function fetchEach(
  { door }: Desk,
  missing: readonly string[],
  { at, type, keep }: Files,
): Promise<void> {
  for (const sha256 of missing) {
    const path = `${at}/${sha256}`
    const answer = await door.ask({ method: 'GET', path, headers: { Accept: type } })
    if (answer.status !== 200) continue // taken away meanwhile: the next bundle does not name it
    if ((await sha256Of(answer.bytes)) !== sha256)
      throw new TransportFault(`${path}: other bytes than asked for`)
    await keep(sha256, answer.bytes)
  }
}
