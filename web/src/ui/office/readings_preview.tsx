// What would be read of a logger's file, before anything is recorded, and every row that would not.
import type { JSX } from 'preact'
import type { LookedAt, WouldRead } from '../../office_api/readings.ts'
import { countdown, quantity } from '../words/format.ts'
import { readingWords as words } from '../words/office_en_readings.ts'
import { UnreadRows } from './readings_unread.tsx'

type PreviewProps = { looked: LookedAt; fresh: boolean }

/** `fresh`: it is of what is told now; else it is looked at again. */
export function ReadingsPreview({ looked, fresh }: PreviewProps): JSX.Element {
  const { read } = looked
  return (
    <section aria-label={words.preview} class="o-preview" aria-busy={!fresh}>
      <h3>{words.preview}</h3>
      {!fresh && <p role="status">{words.asking}</p>}
      {read === null ? <p>{words.needsTime}</p> : <Would looked={looked} read={read} />}
    </section>
  )
}

function Would({ looked, read }: { looked: LookedAt; read: WouldRead }): JSX.Element {
  const degrees = (value: number): string => quantity(value, looked.decimals, looked.unit)
  return (
    <>
      <p>
        <strong>{words.would(read.readings, read.rows)}</strong>
        {read.rows > 0 && `, ${words.span(countdown(read.first_ms), countdown(read.last_ms))}`}.
      </p>
      <ul class="o-cells">
        {read.sensors.map(({ sensor, readings, low, high }) => (
          <li key={sensor}>
            <small>{words.sensor(sensor, '')}</small>
            <span class="num">{readings === 0 ? words.none : words.range(degrees(low), degrees(high))}</span>
          </li>
        ))}
      </ul>
      {read.known > 0 && <p>{words.known(read.known)}</p>}
      {read.before_on > 0 && <p>{words.beforeOn(read.before_on)}</p>}
      {read.blank > 0 && <p>{words.blank(read.blank)}</p>}
      {read.rows > 0 && read.whole === 0 && <p class="in-stop">{words.noWhole}</p>}
      {read.unread_total > 0 && (
        <>
          <h4>{words.unread(read.unread_total)}</h4>
          <p class="o-note">{words.unreadNote}</p>
          <UnreadRows unread={read.unread} total={read.unread_total} />
        </>
      )}
    </>
  )
}
