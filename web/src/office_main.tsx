// Composition root of the office: the page's own fetch, clock and addresses. Loaded only where the office is opened.
import { render } from 'preact'
import { registerWorker } from './device/app_update.ts'
import { openDesk } from './office_api/desk.ts'
import { pageBeat } from './office_api/page_beat.ts'
import { browserMarker } from './store/marker.ts'
import { storeName } from './store/store_name.ts'
import { OfficeApp } from './ui/office/office_app.tsx'
import { openPlaces } from './ui/office/place.ts'
import './ui/style/base.css'
import './ui/parts/parts.css'
import './ui/office/office.css'
import './ui/office/office_forms.css'
import './ui/office/office_job.css'
import './ui/office/office_shelf.css'

export function startOffice(root: Element): void {
  letInAtOnce()
  const desk = openDesk((url, init) => fetch(url, init), pageBeat())
  render(<OfficeApp desk={desk} places={openPlaces(window)} />, root)
}

/**
 * The office's pages open without the server too. A newer app is let in as they open, when nothing is typed
 * yet; where this browser is a phone as well, the phone's page says when.
 */
function letInAtOnce(): void {
  const update = registerWorker()
  const stop = update.view.subscribe((view) => {
    if (view === 'none') return
    if (view === 'waiting' && browserMarker(storeName()).read() === '') update.letIn()
    queueMicrotask(() => stop())
  })
}
