// Work that may wait until the page rests.

/** A page counts as idle before its frame is shown: what may wait must not stand in that frame's way. */
const SHOWN_BY_MS = 40

/** Returns how to call it off. Not every browser says when its page rests. */
export function whenIdle(work: () => void): () => void {
  const says = 'requestIdleCallback' in globalThis
  let asked = 0
  const timer = setTimeout(
    () => {
      if (says) asked = requestIdleCallback(() => work(), { timeout: 500 })
      else work()
    },
    says ? SHOWN_BY_MS : 200,
  )
  return () => {
    clearTimeout(timer)
    if (says) cancelIdleCallback(asked)
  }
}
