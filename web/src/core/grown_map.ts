/** A map that grew by a few: the many before stay where they are, for to copy them costs more than to read twice. */

/** More than this many of its own, and it is copied after all. */
const FEW = 50

/** What a map holds and, after it, more under keys that it has not. */
export function grownMap<K, V>(
  before: ReadonlyMap<K, V>,
  more: Iterable<readonly [K, V]>,
): ReadonlyMap<K, V> {
  const [base, own] = before instanceof GrownMap ? [before.base, before.own] : [before, []]
  const added = new Map([...own, ...more])
  return added.size > FEW ? new Map([...base, ...added]) : new GrownMap(base, added)
}

class GrownMap<K, V> implements ReadonlyMap<K, V> {
  readonly base: ReadonlyMap<K, V>
  readonly own: ReadonlyMap<K, V>

  constructor(base: ReadonlyMap<K, V>, own: ReadonlyMap<K, V>) {
    this.base = base
    this.own = own
  }

  get size(): number {
    return this.base.size + this.own.size
  }

  get(key: K): V | undefined {
    return this.own.get(key) ?? this.base.get(key)
  }

  has(key: K): boolean {
    return this.own.has(key) || this.base.has(key)
  }

  forEach(call: (value: V, key: K, map: ReadonlyMap<K, V>) => void): void {
    for (const [key, value] of this) call(value, key, this)
  }

  /** As lists: to walk one is quicker than to be handed each by a generator. */
  entries(): MapIterator<[K, V]> {
    return [...this.base, ...this.own].values()
  }

  keys(): MapIterator<K> {
    return [...this.base.keys(), ...this.own.keys()].values()
  }

  values(): MapIterator<V> {
    return [...this.base.values(), ...this.own.values()].values()
  }

  [Symbol.iterator](): MapIterator<[K, V]> {
    return this.entries()
  }
}
