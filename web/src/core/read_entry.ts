/** Reads an entry's text: canonical, of the right hash, with a whole envelope. Bodies are the server's to judge. */
import type { Json, JsonObject } from './canonical.ts'
import { parseStrict } from './canonical_read.ts'
import { entryHash } from './digest.ts'
import type { Entry } from './entries.ts'

/** An entry that is malformed; `code` never changes, `field` names the member. */
export class EntryRefused extends Error {
  readonly code: 'wrong_hash' | 'broken_envelope'
  readonly field: string

  constructor(code: EntryRefused['code'], message: string, field: string) {
    super(message)
    this.name = 'EntryRefused'
    this.code = code
    this.field = field
  }
}

/** The entry that a text says, of a kind known here or not. Throws `NotCanonical` or `EntryRefused`. */
export function readEntry(text: string): Entry {
  const parsed = parseStrict(text)
  checkHash(parsed)
  checkEnvelope(parsed)
  return parsed as unknown as Entry
}

function checkHash(parsed: JsonObject): void {
  const { hash, ...open } = parsed
  const own = entryHash(open)
  if (hash === own) return
  throw new EntryRefused('wrong_hash', `hash: found ${shown(hash)}, the entry's own hash is ${own}`, 'hash')
}

/** Refuses the first member, in the envelope's order, that is missing or wrong. */
function checkEnvelope(parsed: JsonObject): void {
  for (const [field, [allowed, holds]] of Object.entries(ENVELOPE)) {
    const found = parsed[field]
    if (found !== undefined && holds(found)) continue
    throw new EntryRefused('broken_envelope', `${field}: found ${shown(found)}; allowed is ${allowed}`, field)
  }
}

function shown(found: Json | undefined): string {
  return found === undefined ? 'none' : JSON.stringify(found).slice(0, 60)
}

type Holds = (found: Json) => boolean

function matches(pattern: RegExp): Holds {
  return (found) => typeof found === 'string' && pattern.test(found)
}

function integerFrom(least: number): Holds {
  return (found) => typeof found === 'number' && found >= least
}

function isSortedIds(found: Json): boolean {
  if (!Array.isArray(found) || !found.every(matches(/^[a-z0-9_-]{1,64}$/))) return false
  return found.every((id, index) => index === 0 || found[index - 1] < id)
}

const UUID = matches(/^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/)
const HASH = matches(/^[0-9a-f]{64}$/)
const UUID_NEED = 'a lower-case UUID'
const HASH_NEED = '64 lower-case hex digits'

const ENVELOPE: { readonly [field: string]: readonly [allowed: string, holds: Holds] } = {
  v: ['an integer from 1', integerFrom(1)],
  job: [UUID_NEED, UUID],
  device: [UUID_NEED, UUID],
  seq: ['an integer from 1', integerFrom(1)],
  by: [UUID_NEED, UUID],
  auth: ['own, pin or picked', matches(/^(?:own|pin|picked)$/)],
  as: ['a sorted list of different ids [a-z0-9_-]{1,64}', isSortedIds],
  at_ms: ['an integer from 0', integerFrom(0)],
  mono_ms: ['an integer from 0', integerFrom(0)],
  load: [UUID_NEED, UUID],
  kind: ['a word [a-z_]{1,32}', matches(/^[a-z_]{1,32}$/)],
  body: ['an object', (found) => typeof found === 'object' && !Array.isArray(found)],
  prev: [HASH_NEED, HASH],
  hash: [HASH_NEED, HASH],
}
