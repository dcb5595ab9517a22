// What stands on every page while pads are hot: fetched when a card first has a run, drawn only then.
import type { JSX } from 'preact'
import type { Card } from '../../core/views/card.ts'
import type { JobView } from '../../core/views/job_view.ts'
import { usePhone } from './context.ts'
import { laterPart } from './later_part.tsx'

const part = () => import('./hot_part.tsx')

const BondBand = laterPart(async () => (await import('./bond_band.tsx')).BondBand)
const HotAlarms = laterPart(async () => (await part()).Alarms)
const HotDueBand = laterPart(async () => (await part()).DueBand)
const HotRunBand = laterPart(async () => (await part()).RunBand)
export const RunLine = laterPart<{ run: NonNullable<JobView['run']> }>(async () => (await part()).RunLine)

function useAnyHot(): boolean {
  return [...usePhone().cards.value.values()].some((card) => card.hotRuns.length > 0)
}

export function Alarms(): JSX.Element | null {
  return useAnyHot() ? <HotAlarms /> : null
}

export function DueBand(): JSX.Element | null {
  return useAnyHot() ? <HotDueBand /> : null
}

export function RunBand({ card }: { card: Card }): JSX.Element | null {
  return (
    <>
      {card.hotRuns.length > 0 && <HotRunBand card={card} />}
      {countsTime(card) && <BondBand card={card} />}
    </>
  )
}

/** Some reading of the methods counts its time from an earlier answer. */
function countsTime(card: Card): boolean {
  return card.steps.some(({ step }) => step.asks.some((ask) => ask.kind === 'reading' && ask.since))
}
