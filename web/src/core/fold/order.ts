/** The orders of the fold: by code unit, never by locale. */

export function byText(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0
}

/** Lists of texts: by their first difference, the shorter first where one begins the other. */
export function byTexts(one: readonly string[], other: readonly string[]): number {
  for (let index = 0; index < one.length && index < other.length; index += 1) {
    const order = byText(one[index] as string, other[index] as string)
    if (order !== 0) return order
  }
  return one.length - other.length
}

/** The ids up to the last that is not empty. */
export function trimmed(ids: readonly string[]): string[] {
  const kept = [...ids]
  while (kept.length > 0 && kept[kept.length - 1] === '') kept.pop()
  return kept
}

export function sorted(texts: Iterable<string>): string[] {
  return [...new Set(texts)].sort()
}

export function hashesOf(entries: Iterable<{ readonly hash: string }>): string[] {
  return sorted(Array.from(entries, (entry) => entry.hash))
}

/** The entry with the greatest (at_ms, hash). */
export function greatest<E extends { readonly at_ms: number; readonly hash: string }>(
  entries: Iterable<E>,
): E | undefined {
  let top: E | undefined
  for (const entry of entries) {
    if (top === undefined || isLater(entry, top)) top = entry
  }
  return top
}

function isLater(one: { at_ms: number; hash: string }, other: { at_ms: number; hash: string }): boolean {
  return one.at_ms === other.at_ms ? one.hash > other.hash : one.at_ms > other.at_ms
}

export function append<K, V>(groups: Map<K, V[]>, key: K, item: V): void {
  const group = groups.get(key)
  if (group === undefined) groups.set(key, [item])
  else group.push(item)
}

/** Groups in the order in which their keys first come. */
export function grouped<K, V>(items: Iterable<V>, keyOf: (item: V) => K): Map<K, V[]> {
  const groups = new Map<K, V[]>()
  for (const item of items) append(groups, keyOf(item), item)
  return groups
}
