/** The service worker: the app's own files for a phone without a network, and push notices; never entries. */
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from 'workbox-precaching'
import { NavigationRoute, registerRoute } from 'workbox-routing'
import { noticeOf } from './notice.ts'

declare const self: ServiceWorkerGlobalScope & {
  readonly __BAYLEAF_PRECACHE__: { readonly url: string; readonly revision: string | null }[]
}

precacheAndRoute(self.__BAYLEAF_PRECACHE__)
cleanupOutdatedCaches()
registerRoute(new NavigationRoute(createHandlerBoundToURL('/index.html'), { denylist: [/^\/api\//] }))

// A new worker waits until the page lets it in: between steps, never during a heat run.
self.addEventListener('message', (event) => {
  if ((event.data as { type?: unknown } | null)?.type === 'let_in') event.waitUntil(self.skipWaiting())
})

// The first worker serves the page that installed it, so that the very next start needs no network.
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()))

self.addEventListener('push', (event) => {
  const { title, ...options } = noticeOf(event.data?.text() ?? '')
  event.waitUntil(self.registration.showNotification(title, options))
})

self.addEventListener('notificationclick', (event) => {
  event.notification.close()
  event.waitUntil(showApp(event.notification.data as { path: string }))
})

async function showApp({ path }: { path: string }): Promise<void> {
  const windows = await self.clients.matchAll({ type: 'window', includeUncontrolled: true })
  const open = windows[0]
  if (open === undefined) await self.clients.openWindow(path)
  else {
    open.postMessage({ type: 'show', path }) // the page goes there itself: nothing typed is lost by a reload
    await open.focus()
  }
}
