// What is wrong with a zone document: one line each, with the member, and its line where a person wrote it.
import type { JSX } from 'preact'
import type { FileFault } from '../../office_api/answer.ts'
import { bringIn as words } from '../words/en_heat_office.ts'
import { capital } from '../words/format.ts'

export function HeatFaults(props: {
  faults: readonly FileFault[]
  onTo?: (field: string) => void
}): JSX.Element {
  const { faults, onTo } = props
  return (
    <div class="o-faults" role="alert">
      <p class="in-stop">
        <strong>{words.faults(faults.length)}</strong>
      </p>
      <ol class="o-plain">
        {faults.map(({ line, field, message }) => (
          <li key={`${field} ${message}`}>
            {line > 0 && `${capital(words.line(line))}: `}
            {onTo ? (
              <button type="button" class="o-link" onClick={() => onTo(field)}>
                {field}
              </button>
            ) : (
              <code>{field}</code>
            )}
            : {message}
          </li>
        ))}
      </ol>
    </div>
  )
}
