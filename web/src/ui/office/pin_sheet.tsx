// Pinning methods to a job: which, in which order, and what a newer revision changes for what is recorded.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { MethodDoc } from '../../core/method.ts'
import { type MethodDifference, methodDifference } from '../../core/views/method_difference.ts'
import { pinDraft } from '../../core/views/office_drafts.ts'
import type { OfficeJob } from '../../core/views/office_job.ts'
import { pinnedDigests } from '../../core/views/office_names.ts'
import { o } from '../words/office_en.ts'
import { difference as words } from '../words/office_en_difference.ts'
import { Form } from './forms.tsx'
import { type SheetProps, useRecord } from './job_sheets.tsx'
import { MethodDifferenceList } from './method_difference.tsx'
import { MethodPicker } from './method_picker.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { SeenPage } from './page_parts.tsx'
import { useMethods } from './use_methods.ts'

export function PinSheet(props: SheetProps): JSX.Element {
  const { job } = props
  const { desk } = useOffice()
  const { act, record } = useRecord(props)
  const { seen, refresh } = useRoute(desk.api.methods, 0, 'methods')
  const [chosen, setChosen] = useState(pinnedDigests(job.log, job.state))
  return (
    <Form
      act={act}
      submit={o.job.acts.pinKey}
      onSubmit={() => void record(pinDraft(job.state, chosen))}
      onCancel={props.onDone}
    >
      <p>{o.job.acts.pinNote}</p>
      <SeenPage seen={seen} refresh={refresh}>
        {(methods) => <MethodPicker methods={methods} chosen={chosen} onChange={setChosen} />}
      </SeenPage>
      <Differences job={job} chosen={chosen} />
    </Form>
  )
}

/** Each newly chosen revision beside the one of the same method that is pinned now. */
function differencesOf(job: OfficeJob, docs: ReadonlyMap<string, MethodDoc>): readonly MethodDifference[] {
  return [...docs.values()].flatMap((doc) => {
    const pinned = job.head.methods.find((one) => one.id === doc.id)
    return pinned === undefined ? [] : [methodDifference(pinned, doc)]
  })
}

function Differences({ job, chosen }: { job: OfficeJob; chosen: readonly string[] }): JSX.Element | null {
  const pinned = new Set(pinnedDigests(job.log, job.state))
  const fresh = chosen.filter((digest) => !pinned.has(digest))
  const { docs, failed } = useMethods(fresh)
  if (fresh.length === 0) return null
  if (docs.size < fresh.length) return <p role="status">{failed ? words.unread : words.loading}</p>
  const differences = differencesOf(job, docs)
  return (
    <div class="o-stack" role="status">
      {differences.map((one) => (
        <div key={one.to.id}>
          <Anew job={job} difference={one} />
          <MethodDifferenceList difference={one} />
        </div>
      ))}
    </div>
  )
}

/** Steps that have records and whose text is another now. */
function anewOf(job: OfficeJob, { from, steps }: MethodDifference): readonly string[] {
  const recorded = new Set([
    ...job.state.steps.filter((one) => one.method === from.id && one.tick !== '').map((one) => one.step),
    ...job.state.registers.filter((one) => one.method === from.id).map((one) => one.step),
  ])
  return steps.filter((one) => one.asksAnew && recorded.has(one.step)).map((one) => one.title)
}

function Anew({ job, difference }: { job: OfficeJob; difference: MethodDifference }): JSX.Element {
  const titles = anewOf(job, difference)
  if (titles.length === 0) return <p>{words.anewNone}</p>
  return (
    <div class="o-about">
      <p>
        <strong>{words.anew(titles.length)}</strong>
      </p>
      <ul class="o-plain">
        {titles.map((title) => (
          <li key={title}>{title}</li>
        ))}
      </ul>
    </div>
  )
}
