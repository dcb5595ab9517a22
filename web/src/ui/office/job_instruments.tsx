// Instruments that were overdue for calibration on the day that a step of the job named them.
import type { JSX } from 'preact'
import { useMemo } from 'preact/hooks'
import { overdueInstruments } from '../../core/views/office_instruments.ts'
import type { OfficeJob } from '../../core/views/office_job.ts'
import type { InstrumentRow } from '../../office_api/rows.ts'
import { Mark } from '../parts/mark.tsx'
import { date, dateAndTime } from '../words/format.ts'
import { instruments as words } from '../words/office_en_stock.ts'
import { personName, useOffice, useRoute } from './office_desk.ts'

const NOTHING: readonly InstrumentRow[] = []

export function JobInstruments({ job: { log, state } }: { job: OfficeJob }): JSX.Element | null {
  const { desk, shop } = useOffice()
  const { seen } = useRoute(desk.api.instruments, 0, 'instruments')
  const register = seen.value ?? NOTHING
  // The page is drawn anew each second.
  const overdue = useMemo(() => {
    const entries = new Map(log.items.map(({ entry }) => [entry.hash, entry]))
    return overdueInstruments(state, entries, Object.values(log.methods), register)
  }, [log, state, register])
  if (overdue.length === 0) return null
  return (
    <section class="o-part" aria-label={words.overdueTitle}>
      <div class="o-part-head">
        <h2>{words.overdueTitle}</h2>
      </div>
      <p class="o-note">{words.overdueNote}</p>
      <ul class="o-list">
        {overdue.map(({ entry, said, until, title }) => (
          <li key={entry.hash}>
            <span class="in-stop">
              <Mark name="finding" />
            </span>
            <p>
              <strong>{words.overdueAt(said, date(Date.parse(until)))}</strong>
              <small>
                {title}, {dateAndTime(entry.at_ms)} {personName(shop, entry.by)}
              </small>
            </p>
          </li>
        ))}
      </ul>
    </section>
  )
}
