// Screens that are fetched when they are first shown.
import { w } from '../words/en.ts'
import { type Drawn, laterPart } from './later_part.tsx'
import { LoadingPage, LostPage } from './plain_pages.tsx'
import { paths } from './router.ts'

export function later<P extends object>(load: () => Promise<Drawn<P>>): Drawn<P> {
  return laterPart(load, (state) =>
    state === 'failed' ? <LostPage what={w.phone.pages.partMissing} up={paths.jobs} /> : <LoadingPage />,
  )
}
