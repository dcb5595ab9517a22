// Writes entries for tests as a device does: sealed, chained, one count per device.
import { NO_PREV, seal } from '../../src/core/digest.ts'
import type { Author, Draft, Entry } from '../../src/core/entries.ts'

export const JOB = '10000000-0000-4000-8000-000000000001'
const LOAD = '30000000-0000-4000-8000-000000000001'

export function person(number: number): string {
  return `40000000-0000-4000-8000-${String(number).padStart(12, '0')}`
}

export function author(number: number, ...roles: string[]): Author {
  return { by: person(number), auth: 'own', as: [...roles].sort() }
}

/** A pen that writes one device's chain; its wall clock steps a second with each entry. */
export function pen(number: number, who: Author): (draft: Draft) => Entry {
  const device = `20000000-0000-4000-8000-${String(number).padStart(12, '0')}`
  let seq = 0
  let prev = NO_PREV
  return (draft) => {
    seq += 1
    const at_ms = 1_760_000_000_000 + seq * 1000
    const envelope = {
      v: 1,
      job: JOB,
      device,
      seq,
      ...who,
      at_ms,
      mono_ms: seq * 1000,
      load: LOAD,
      prev,
    } as const
    const { entry } = seal(draft, envelope)
    prev = entry.hash
    return entry
  }
}
