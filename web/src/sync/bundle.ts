/** The bundle: people, methods, drawings and what papers there are: all that a phone needs to work alone; asked for by its version. */
import { bytesToHex } from '@noble/hashes/utils.js'
import type { Drawing, Shelf } from '../store/sync_side.ts'
import type { PaperWords, Person, PlanWords } from '../store/types.ts'
import { jsonOf } from './door.ts'
import type { Desk } from './exchange.ts'

type BundleWords = {
  readonly version: string
  readonly people: readonly Person[]
  readonly methods: Readonly<Record<string, string>>
  /** SHA-256 to base64 of the SVG. */
  readonly drawings: Readonly<Record<string, string>>
  readonly papers?: readonly PaperWords[]
  readonly plans?: readonly PlanWords[]
  readonly shelf?: Shelf
}

/** Fetches the bundle, unless it is the one held, and notes under which name it was due. */
export async function fetchBundle(desk: Desk, name: string): Promise<void> {
  await keepNewest(desk)
  await desk.store.setSetting('bundle_heard', name)
  await desk.store.setSetting('bundle_due', false)
}

async function keepNewest({ store, door }: Desk): Promise<void> {
  const version = String((await store.setting('bundle')) ?? '')
  const headers = version === '' ? {} : { 'If-None-Match': `"${version}"` }
  const path = '/api/bundle'
  const answer = await door.ask({ method: 'GET', path, headers })
  if (answer.status === 304) return
  const bundle = jsonOf<BundleWords>(path, answer)
  const held = new Set((await store.sync.held()).drawings)
  for (const [sha256, base64] of Object.entries(bundle.drawings)) {
    if (!held.has(sha256)) await keepDrawing(store.sync, sha256, base64)
  }
  // Last, for its version says that all before it is here.
  await store.sync.saveBundle(bundle)
}

async function keepDrawing(
  side: { saveDrawing(drawing: Drawing): Promise<void> },
  sha256: string,
  base64: string,
) {
  const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0)).buffer
  const digest = bytesToHex(new Uint8Array(await crypto.subtle.digest('SHA-256', bytes)))
  if (digest === sha256) await side.saveDrawing({ sha256, type: 'image/svg+xml', bytes })
}
