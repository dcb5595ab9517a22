/** One sync at a time over all tabs of this phone, by Web Locks; without them, one in each tab. */

/** Runs work alone; false where another tab is at it. */
export type Alone = (work: () => Promise<void>) => Promise<boolean>

export function aloneByLocks(name: string): Alone {
  const locks = 'navigator' in globalThis ? navigator.locks : undefined
  if (locks === undefined) return async (work) => work().then(() => true)
  return (work) =>
    locks.request(`sync:${name}`, { ifAvailable: true }, async (lock) => {
      if (lock !== null) await work()
      return lock !== null
    })
}
