// A revision beside another one of the same method: what differs.
import type { JSX } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { MethodDoc } from '../../core/method.ts'
import { methodDifference } from '../../core/views/method_difference.ts'
import type { MethodRow } from '../../office_api/rows.ts'
import { date } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { reading as words } from '../words/office_en_methods.ts'
import { MethodDifferenceList } from './method_difference.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { useMethods } from './use_methods.ts'

type CompareProps = { method: MethodDoc; digest: string }

export function MethodCompare({ method, digest }: CompareProps): JSX.Element {
  const { desk } = useOffice()
  const { seen } = useRoute(desk.api.methods, 0, 'methods')
  const others = (seen.value ?? []).filter((one) => one.id === method.id && one.digest !== digest)
  return (
    <section aria-label={words.differences}>
      <h2>{words.differences}</h2>
      {others.length === 0 ? (
        <p class="soft">{seen.value === undefined ? o.seen.loading : words.noOther}</p>
      ) : (
        <Chosen method={method} others={others} />
      )}
    </section>
  )
}

function Chosen({ method, others }: { method: MethodDoc; others: readonly MethodRow[] }): JSX.Element {
  const [chosen, setChosen] = useState('')
  const id = useId()
  const { docs } = useMethods(chosen === '' ? [] : [chosen])
  const other = docs.get(chosen)
  return (
    <>
      <div class="o-field">
        <label for={id}>{words.compareWith}</label>
        <select id={id} value={chosen} onChange={(event) => setChosen(event.currentTarget.value)}>
          <option value="">{words.nobody}</option>
          {others.map((one) => (
            <option key={one.digest} value={one.digest}>
              {o.methods.revision} {one.revision}, {o.methods.imported} {date(one.imported_ms)},{' '}
              {one.digest.slice(0, 8)}
            </option>
          ))}
        </select>
      </div>
      {other && <MethodDifferenceList difference={methodDifference(other, method)} />}
    </>
  )
}
