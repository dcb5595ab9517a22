// Composition root of the office: the page's own fetch, clock and addresses. Loaded only where the office is opened.
import { render } from 'preact'
import { openDesk } from './office_api/desk.ts'
import { pageBeat } from './office_api/page_beat.ts'
import { OfficeApp } from './ui/office/office_app.tsx'
import { openPlaces } from './ui/office/place.ts'
import './ui/style/base.css'
import './ui/parts/parts.css'
import './ui/office/office.css'
import './ui/office/office_forms.css'
import './ui/office/office_job.css'

export function startOffice(root: Element): void {
  const desk = openDesk((url, init) => fetch(url, init), pageBeat())
  render(<OfficeApp desk={desk} places={openPlaces(window)} />, root)
}
