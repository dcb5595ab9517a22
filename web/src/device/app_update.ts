/** The service worker of this page: registered once, and a new one let in only when the page says so. */
import { type ReadonlySignal, signal } from '@preact/signals'

export interface AppUpdate {
  /** `none`: this browser runs no worker here (plain http, or a private window): no start without a network. */
  readonly view: ReadonlySignal<'none' | 'ready' | 'waiting'>
  /** Between steps, never during a heat run: swaps the app and loads the page anew. */
  letIn(): void
}

/** Registers without being waited for: the page is drawn meanwhile. */
export function registerWorker(path = '/sw.js'): AppUpdate {
  const view = signal<'none' | 'ready' | 'waiting'>('none')
  let waiting: ServiceWorker | null = null
  const letIn = () => {
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true })
    waiting?.postMessage({ type: 'let_in' })
  }
  if ('serviceWorker' in navigator) void watch()
  return { view, letIn }

  async function watch(): Promise<void> {
    const registration = await navigator.serviceWorker.register(path).catch(() => undefined)
    if (registration === undefined) return // refused by the browser (a private window): the view stays `none`
    const look = () => {
      waiting = registration.waiting
      // Without a controller the first worker is being installed: nothing to swap.
      const isUpdate = waiting !== null && navigator.serviceWorker.controller !== null
      view.value = isUpdate ? 'waiting' : 'ready'
    }
    registration.addEventListener('updatefound', () =>
      registration.installing?.addEventListener('statechange', look),
    )
    look()
  }
}
