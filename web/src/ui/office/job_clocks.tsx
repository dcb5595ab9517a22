// What was done outside a clock of the bond: surface, primer, open time, mixer.
import type { JSX } from 'preact'
import { useMemo } from 'preact/hooks'
import { type DoneOutside, doneOutside } from '../../core/views/bond_outside.ts'
import type { OfficeJob } from '../../core/views/office_job.ts'
import { officeCard } from '../../core/views/office_run_card.ts'
import { Mark } from '../parts/mark.tsx'
import { bondWords } from '../words/en_bond.ts'
import { dateAndTime, duration, listed } from '../words/format.ts'
import { clocks as words } from '../words/office_en_clocks.ts'
import { personName, useOffice } from './office_desk.ts'

export function JobClocks({ job: { log, state } }: { job: OfficeJob }): JSX.Element | null {
  const outside = useMemo(() => doneOutside(officeCard(log, state)), [log, state])
  if (outside.length === 0) return null
  return (
    <section class="o-part" aria-label={words.title}>
      <div class="o-part-head">
        <h2>{words.title}</h2>
      </div>
      <ul class="o-list">
        {outside.map((one, place) => (
          <li key={`${one.kind}${place}`}>
            <span class="in-stop">
              <Mark name="finding" />
            </span>
            <p>
              <strong>{saidOf(one)}</strong>
              <Signed one={one} />
            </p>
          </li>
        ))}
      </ul>
    </section>
  )
}

function Signed({ one }: { one: DoneOutside }): JSX.Element {
  const { shop } = useOffice()
  const known = one.kind === 'rivets' ? one.late.at(-1)?.known : one.known
  if (known === undefined) return <small />
  const title = one.kind === 'reading' ? `${one.place.step.title}, ` : ''
  return (
    <small>
      {title}
      {dateAndTime(known.entry.at_ms)} {personName(shop, known.entry.by)}
    </small>
  )
}

function saidOf(one: DoneOutside): string {
  switch (one.kind) {
    case 'rivets': {
      const named = one.late.map(({ position, minute }) => bondWords.lateAt(position, minute))
      return words.rivets(listed(named), duration(one.max_ms))
    }
    case 'mixer':
      return words.mixer(duration(one.stood_ms), duration(one.gel_ms))
    case 'reading': {
      const { min_ms, max_ms, shortened } = one.window
      const least = min_ms === 0 ? '' : duration(min_ms)
      const most = max_ms === Number.POSITIVE_INFINITY ? '' : duration(max_ms)
      return words.reading(one.ask.name, duration(one.took_ms), least, most, shortened)
    }
  }
}
