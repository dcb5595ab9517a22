// When a scene stands: its later parts have come, and the keys that it asks for are pressed.
const QUIET_MS = 120
const WITHIN_MS = 4000
const TRY_EVERY_MS = 20
const ARRIVES_WITHIN_MS = 30_000

/** Until nothing on the page has changed for a moment. */
export function quiet(root: Element): Promise<void> {
  return new Promise((resolve) => {
    const end = (): void => {
      watcher.disconnect()
      clearTimeout(still)
      clearTimeout(last)
      resolve()
    }
    let still = setTimeout(end, QUIET_MS)
    const last = setTimeout(end, WITHIN_MS)
    const watcher = new MutationObserver(() => {
      clearTimeout(still)
      still = setTimeout(end, QUIET_MS)
    })
    watcher.observe(root, { subtree: true, childList: true, attributes: true, characterData: true })
  })
}

/** Until something else than the word that something is being fetched is shown; a busy machine is still meanwhile. */
export async function arrived(root: Element): Promise<void> {
  const until = performance.now() + ARRIVES_WITHIN_MS
  while (isFetching(root)) {
    if (performance.now() > until) throw new Error('gallery: nothing arrives')
    await new Promise((resolve) => setTimeout(resolve, TRY_EVERY_MS))
  }
}

function isFetching(root: Element): boolean {
  const page = root.querySelector('main.phone')
  const empty = page !== null && [...page.children].every((one) => one.classList.contains('loading'))
  return empty || root.childElementCount === 0 || root.textContent?.includes(OFFICE_ASKED) === true
}

const OFFICE_ASKED = 'Asking the office for this page.'

/** Until the page's keys hear again. */
export async function settled(root: Element): Promise<void> {
  while (root.querySelector('[data-settling]') !== null)
    await new Promise((resolve) => setTimeout(resolve, TRY_EVERY_MS))
}

/** Keys are deaf for a moment after an act changes. */
export async function press(root: Element, words: string): Promise<void> {
  const until = performance.now() + WITHIN_MS
  while (performance.now() < until) {
    const key = keyOf(root, words)
    if (key && root.querySelector('[data-settling]') === null) {
      key.click()
      return
    }
    await new Promise((resolve) => setTimeout(resolve, TRY_EVERY_MS))
  }
  throw new Error(`gallery: no key ${words}`)
}

function keyOf(root: Element, words: string): HTMLElement | undefined {
  if (words.startsWith('.')) return root.querySelector<HTMLElement>(words) ?? undefined
  const keys = [...root.querySelectorAll<HTMLElement>('button, a[href], summary')]
  return keys.find((key) => key.textContent?.trim().startsWith(words))
}
