// Scenes behind one more tap: the sheets, and a page that has not come yet.
import { paths } from '../../../src/ui/phone/router.ts'
import { type FakePhone, JOB } from '../fake_phone.ts'
import { framePhone, playFrameTo } from '../played_frame.ts'

/** `press`: keys by how their words begin, or a selector that begins with a dot. */
type Scene = () => Promise<{ fake: FakePhone; path: string; press?: readonly string[] }>

function tapped(step: string, ...press: readonly string[]): Scene {
  return async () => {
    const fake = framePhone()
    await playFrameTo(fake, step)
    return { fake, path: paths.card(JOB), press }
  }
}

export const SHEET_SCENES: Readonly<Record<string, Scene>> = {
  sheet_more: tapped('rem-18', 'More'),
  sheet_holds: tapped('rem-18', '.glance button:first-of-type'),
  unsaved: async () => {
    const fake = framePhone()
    await playFrameTo(fake, 'rem-01')
    fake.breakStore('full')
    const press = ['4', '8', 'Record 48']
    return { fake, path: paths.ask(JOB, 'removal', 'rem-01', 'odometer'), press }
  },
  sheet_records: tapped('rem-18', '.glance button:last-of-type'),
  // Its words come after a moment: to press them is to have waited for them.
  loading: async () => {
    const fake = framePhone()
    const store = { ...fake.services.store, jobs: () => new Promise<never>(() => undefined) }
    return { fake: { ...fake, services: { ...fake.services, store } }, path: '/', press: ['.loading'] }
  },
}
