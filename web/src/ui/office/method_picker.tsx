// Methods to pin, in the order in which they are chosen.
import type { JSX } from 'preact'
import type { MethodRow } from '../../office_api/rows.ts'
import { date } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { demands } from '../words/office_en_demands.ts'
import { Options } from './forms.tsx'
import { LinkButton } from './page_parts.tsx'

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

/** A job pins one revision of a method: another one takes the place of the first. */
function withoutDoubles(
  methods: readonly MethodRow[],
  before: readonly string[],
  after: readonly string[],
): readonly string[] {
  const idOf = (digest: string): string => methods.find((one) => one.digest === digest)?.id ?? digest
  const [fresh] = after.filter((digest) => !before.includes(digest))
  const old = before.find((digest) => fresh !== undefined && idOf(digest) === idOf(fresh))
  if (fresh === undefined || old === undefined) return after
  return before.map((digest) => (digest === old ? fresh : digest))
}

export function MethodPicker({ methods, chosen, onChange }: PickerProps): JSX.Element {
  if (methods.length === 0) return <p class="soft">{o.openJob.noMethods}</p>
  const options = methods.map((method) => ({
    id: method.digest,
    name: nameOf(method, chosen),
    note: [date(method.imported_ms), method.invented ? o.methods.invented : ''].filter(Boolean).join(' · '),
  }))
  return (
    <>
      <Options
        name={o.openJob.methods}
        options={options}
        chosen={chosen}
        onChange={(after) => onChange(withoutDoubles(methods, chosen, after))}
      />
      {chosen.length > 1 && <OrderKeys methods={methods} chosen={chosen} onChange={onChange} />}
    </>
  )
}

/** The order of the work is the order of choosing; a method is put earlier by a key. */
function OrderKeys({ methods, chosen, onChange }: PickerProps): JSX.Element {
  const titleOf = (digest: string): string =>
    methods.find((method) => method.digest === digest)?.title ?? digest.slice(0, 8)
  const earlier = (at: number): void => {
    const moved = [...chosen]
    moved.splice(at - 1, 2, chosen[at] ?? '', chosen[at - 1] ?? '')
    onChange(moved)
  }
  return (
    <ol class="o-order-list" aria-label={demands.order}>
      {chosen.map((digest, at) => (
        <li key={digest}>
          {o.openJob.methodAt(at + 1)} {titleOf(digest)}{' '}
          {at > 0 && (
            <LinkButton label={demands.earlier(titleOf(digest))} onPress={() => earlier(at)}>
              {demands.earlier('')}
            </LinkButton>
          )}
        </li>
      ))}
    </ol>
  )
}
