// The heat pages, fetched when the first of them is opened: the rest of the office does without them.
import type { JSX } from 'preact'
import { type Drawn, laterPart } from '../phone/later_part.tsx'
import { o } from '../words/office_en.ts'

function later<P extends object>(load: () => Promise<Drawn<P>>): Drawn<P> {
  return laterPart(load, (state) => <Meanwhile failed={state === 'failed'} />)
}

function Meanwhile({ failed }: { failed: boolean }): JSX.Element {
  return <p class="o-loading">{failed ? o.seen.silentFirst : o.seen.loading}</p>
}

export const HeatZonesScreen = later(async () => (await import('./heat_zones.tsx')).HeatZonesScreen)
export const HeatZoneScreen = later<{ digest: string }>(
  async () => (await import('./heat_zone.tsx')).HeatZoneScreen,
)
export const HeatChangeScreen = later<{ digest: string }>(
  async () => (await import('./heat_editor.tsx')).HeatChangeScreen,
)
export const HeatNewScreen = later(async () => (await import('./heat_editor.tsx')).HeatNewScreen)
export const JobHeat = later<import('./job_heat.tsx').JobHeatProps>(
  async () => (await import('./job_heat.tsx')).JobHeat,
)
