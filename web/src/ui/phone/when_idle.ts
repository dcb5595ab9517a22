// Work that may wait until the page rests.

/** Returns how to call it off. Not every browser says when its page rests. */
export function whenIdle(work: () => void): () => void {
  if (!('requestIdleCallback' in globalThis)) {
    const timer = setTimeout(work, 200)
    return () => clearTimeout(timer)
  }
  const asked = requestIdleCallback(() => work(), { timeout: 500 })
  return () => cancelIdleCallback(asked)
}
