/** The status that screens show, from what went well or wrong in the last sync. */
import { isKnown } from '../core/entries.ts'
import type { PhoneStore } from '../store/index.ts'
import { Refused } from './door.ts'
import { type SyncState, type SyncStatus, TransportFault } from './types.ts'

export const NO_TROUBLE = { code: '', message: '' } as const

export const FIRST_STATUS: SyncStatus = {
  state: 'idle',
  onThisPhone: { entries: 0, photos: 0 },
  uncounted: true,
  heard_ms: 0,
  shopNetwork: true,
  trouble: NO_TROUBLE,
  setAside: 0,
  refused: 0,
  unknownMet: false,
}

/** What the store knows of the status; the state and the trouble are the loop's. */
export async function counted(store: PhoneStore): Promise<Omit<SyncStatus, 'state' | 'trouble'>> {
  const fates = await store.sync.fates()
  return {
    onThisPhone: await store.unsent(),
    uncounted: false,
    heard_ms: Number((await store.setting('heard_ms')) ?? 0),
    shopNetwork: (await store.setting('shop_network')) !== false,
    setAside: fates.filter((row) => row.fate === 'set_aside').length,
    refused: fates.filter((row) => row.fate === 'refused' && !row.seen).length,
    unknownMet: await metUnknown(store),
  }
}

async function metUnknown(store: PhoneStore): Promise<boolean> {
  const jobs = (await store.jobs()).filter((row) => !row.gone && !row.let_go)
  const logs = await Promise.all(jobs.map(({ job }) => store.entries(job)))
  return logs.some((log) => log.some(({ entry }) => !isKnown(entry)))
}

/** Refusals that mean more than one failed request. */
const STATE_OF_CODE: Readonly<Record<string, SyncState>> = {
  revoked_device: 'revoked',
  update_needed: 'update_needed',
  not_paired: 'not_paired',
  unknown_device: 'started_anew',
}

export type Outcome = Pick<SyncStatus, 'state' | 'trouble'>

/** What an error of a sync means for the person; a bug passes on as it is. */
export function outcomeOf(error: unknown): Outcome {
  if (error instanceof TransportFault) {
    return { state: 'offline', trouble: { code: 'no_answer', message: error.message } }
  }
  if (error instanceof Refused) {
    const { code, message } = error
    return { state: STATE_OF_CODE[code] ?? 'refused', trouble: { code, message } }
  }
  const message = error instanceof Error ? error.message : String(error)
  return { state: 'refused', trouble: { code: 'fault_here', message } }
}
