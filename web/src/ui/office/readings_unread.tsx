// Rows and cells of a logger's file that could not be read, each with its line and why.
import type { JSX } from 'preact'
import type { UnreadRow } from '../../office_api/readings.ts'
import { readingWords as words } from '../words/office_en_readings.ts'

export function UnreadRows({ unread, total }: { unread: readonly UnreadRow[]; total: number }): JSX.Element {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a part that scrolls has to be reached by keys
    <section class="o-unread" aria-label={words.unread(total)} tabIndex={0}>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.line}</th>
            <th scope="col">{words.where}</th>
            <th scope="col">{words.found}</th>
            <th scope="col">{words.reason}</th>
          </tr>
        </thead>
        <tbody>
          {unread.map((one) => (
            <tr key={`${one.line} ${one.column}`}>
              <th scope="row" class="num">
                {one.line}
              </th>
              <td>{one.column === '' ? words.whole : words.sensor(one.column, '')}</td>
              <td>{one.found}</td>
              <td>{one.reason}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {total > unread.length && <p>{words.unreadMore(total - unread.length)}</p>}
    </section>
  )
}
