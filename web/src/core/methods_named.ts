/** Which method documents a job's entries need: a fold that lacks one of them may differ from one that has it. */
import { type Entry, isKnown } from './entries.ts'

/** Digests that pins name and that entries about a step were made under, sorted. */
export function methodsNamed(entries: Iterable<Entry>): string[] {
  const digests = new Set<string>()
  for (const entry of entries) {
    if (!isKnown(entry)) continue
    const { body } = entry
    if ('methods' in body) for (const digest of body.methods) digests.add(digest)
    if ('digest' in body && body.digest !== '') digests.add(body.digest)
  }
  return [...digests].sort()
}
