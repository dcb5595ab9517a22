/** Which store this origin uses: a new one is begun beside the old, never over it. */

const KEY = 'store_name'
const FIRST = 'bayleaf'

export function storeName(): string {
  return globalThis.localStorage?.getItem(KEY) ?? FIRST
}

/** Begins a new store at the next page load; the old one stays on disk, readable by its name. */
export function beginNewStore(now_ms: number): void {
  globalThis.localStorage?.setItem(KEY, `${FIRST}-${now_ms}`)
}
