// Methods to pin, in the order in which they are chosen.
import type { JSX } from 'preact'
import type { MethodRow } from '../../office_api/rows.ts'
import { date } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { Options } from './forms.tsx'

type PickerProps = {
  methods: readonly MethodRow[]
  chosen: readonly string[]
  onChange: (chosen: readonly string[]) => void
}

function nameOf(method: MethodRow, chosen: readonly string[]): string {
  const title = o.board.method(method.title, method.revision)
  const at = chosen.indexOf(method.digest)
  return at >= 0 && chosen.length > 1 ? `${o.openJob.methodAt(at + 1)} ${title}` : title
}

export function MethodPicker({ methods, chosen, onChange }: PickerProps): JSX.Element {
  if (methods.length === 0) return <p class="soft">{o.openJob.noMethods}</p>
  const options = methods.map((method) => ({
    id: method.digest,
    name: nameOf(method, chosen),
    note: [date(method.imported_ms), method.invented ? o.methods.invented : ''].filter(Boolean).join(' · '),
  }))
  return <Options name={o.openJob.methods} options={options} chosen={chosen} onChange={onChange} />
}
