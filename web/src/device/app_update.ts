/** The service worker of this page: registered once, and a new one let in only when the page says so. */
import { type ReadonlySignal, signal } from '@preact/signals'

export interface AppUpdate {
  /** `none`: this browser runs no worker here (plain http, or a private window): no start without a network. */
  readonly view: ReadonlySignal<'none' | 'ready' | 'waiting'>
  /** Between steps, never during a heat run: swaps the app and loads the page anew. */
  letIn(): void
}

export async function registerWorker(path = '/sw.js'): Promise<AppUpdate> {
  const view = signal<'none' | 'ready' | 'waiting'>('none')
  let waiting: ServiceWorker | null = null
  const letIn = () => {
    navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true })
    waiting?.postMessage({ type: 'let_in' })
  }
  if (!('serviceWorker' in navigator)) return { view, letIn }
  const registration = await navigator.serviceWorker.register(path).catch(() => undefined)
  if (registration === undefined) return { view, letIn }
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
  return { view, letIn }
}
