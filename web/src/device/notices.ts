/** Whether this phone may show notices of the system. */
import { signal } from '@preact/signals'
import type { Notices, NoticeView } from './types.ts'

export function systemNotices(): Notices {
  const view = signal(viewNow())
  // Nobody tells a page that the permission was changed in the settings: it looks on each return.
  document.addEventListener('visibilitychange', () => {
    view.value = viewNow()
  })
  return {
    view,
    async ask() {
      if ('Notification' in globalThis) await Notification.requestPermission()
      view.value = viewNow()
    },
  }
}

const VIEWS: { readonly [P in NotificationPermission]: NoticeView } = {
  granted: 'granted',
  denied: 'denied',
  default: 'not_asked',
}

function viewNow(): NoticeView {
  return 'Notification' in globalThis ? VIEWS[Notification.permission] : 'not_available'
}
