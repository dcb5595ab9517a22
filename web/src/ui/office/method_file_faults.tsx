// Faults and remarks of a method file, each beside the lines of the file that it is about.
import type { JSX } from 'preact'
import { linesAround } from '../../core/views/file_lines.ts'
import type { CheckFault, CheckRemark } from '../../office_api/rows.ts'
import { importing as words } from '../words/office_en_methods.ts'

export function FileFaults({ faults, yaml }: { faults: readonly CheckFault[]; yaml: string }): JSX.Element {
  return (
    <div class="o-faults" role="alert">
      <p class="in-stop">
        <strong>{words.faults(faults.length)}</strong>
      </p>
      <ol class="o-plain">
        {faults.map((fault) => (
          <li key={`${fault.line} ${fault.field} ${fault.found}`} class="o-fault">
            <div>
              <p>
                <strong>{words.line(fault.line)}</strong> <code>{fault.field}</code>
              </p>
              <p>{words.found(fault.found)}</p>
              <p>{words.mend(fault.allowed)}</p>
            </div>
            <Lines yaml={yaml} line={fault.line} />
          </li>
        ))}
      </ol>
    </div>
  )
}

export function Remarks({ remarks, yaml }: { remarks: readonly CheckRemark[]; yaml: string }): JSX.Element {
  return (
    <details class="o-remarks">
      <summary>{words.remarks(remarks.length)}</summary>
      <ol class="o-plain">
        {remarks.map((remark) => (
          <li key={`${remark.line} ${remark.field} ${remark.said}`} class="o-fault">
            <div>
              <p>
                <strong>{words.line(remark.line)}</strong> <code>{remark.field}</code>
              </p>
              <p>{remark.said}</p>
            </div>
            <Lines yaml={yaml} line={remark.line} />
          </li>
        ))}
      </ol>
    </details>
  )
}

/** The line itself, marked, between those beside it. */
function Lines({ yaml, line }: { yaml: string; line: number }): JSX.Element | null {
  const lines = linesAround(yaml, line)
  if (lines.length === 0) return null
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide piece is scrolled by its keys
    <pre class="o-lines" tabIndex={0}>
      {lines.map((one) => (
        <span key={one.number} class={one.number === line ? 'o-lines-this' : ''}>
          <span class="o-lines-number">{one.number}</span>
          {one.text}
          {'\n'}
        </span>
      ))}
    </pre>
  )
}
