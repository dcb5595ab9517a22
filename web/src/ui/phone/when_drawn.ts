// Work that would make the browser lay the page out before it is seen.

/** After the next frame is drawn; returns how to call it off. */
export function whenDrawn(work: () => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  const frame = requestAnimationFrame(() => {
    timer = setTimeout(work)
  })
  return () => {
    cancelAnimationFrame(frame)
    clearTimeout(timer)
  }
}
