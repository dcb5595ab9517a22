// The sheets of the job page: one text, people, place, a countersign.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { Draft } from '../../core/entries.ts'
import { assignDraft, countersignDraft, placeDraft } from '../../core/views/office_drafts.ts'
import type { OfficeJob } from '../../core/views/office_job.ts'
import { subjectOfHash } from '../../core/views/office_what.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { roleName } from '../words/names.ts'
import { o } from '../words/office_en.ts'
import { DemandList } from './demand_list.tsx'
import { ActWords, Field, Form, TextField } from './forms.tsx'
import type { JobAsk } from './job_ask.ts'
import { useOffice } from './office_desk.ts'
import type { TextAct } from './text_acts.ts'
import { useAct } from './use_act.ts'

export type SheetProps = { job: OfficeJob; onDone: () => void }

/** Records one draft of this job; `onDone` closes the sheet and pulls. */
export function useRecord({ job, onDone }: SheetProps) {
  const { desk } = useOffice()
  const act = useAct()
  const record = (draft: Draft) => act.run(() => desk.api.write(job.log.job, draft.kind, draft.body), onDone)
  return { act, record }
}

export function TextSheet(props: SheetProps & { text: TextAct }): JSX.Element {
  const { text, job } = props
  const { act, record } = useRecord(props)
  const [typed, setTyped] = useState('')
  const submit = (): void => {
    if (text.lack !== '' && typed.trim() === '') act.lack(text.lack)
    else void record(text.draft(job.state, typed))
  }
  return (
    <Form act={act} submit={text.key} tone={text.tone} onSubmit={submit} onCancel={props.onDone}>
      {text.about !== '' && <p class="o-about">{text.about}</p>}
      {text.note !== '' && <p>{text.note}</p>}
      <TextField name={text.label} value={typed} onType={setTyped} />
    </Form>
  )
}

export function PlaceSheet(props: SheetProps): JSX.Element {
  const { act, record } = useRecord(props)
  const [place, setPlace] = useState(props.job.head.place)
  return (
    <Form
      act={act}
      submit={o.job.acts.placeKey}
      onSubmit={() => void record(placeDraft(props.job.state, place))}
      onCancel={props.onDone}
    >
      <Field name={o.job.acts.placeLabel} value={place} onType={setPlace} max={80} />
    </Form>
  )
}

export function PeopleSheet(props: SheetProps & { refresh: () => void }): JSX.Element {
  const { shop } = useOffice()
  const { act, record } = useRecord({ job: props.job, onDone: props.refresh })
  const on = new Set(props.job.head.assigned)
  return (
    <>
      <ActWords state={act.state} />
      <ul class="o-list">
        {shop.people.map((person) => (
          <li key={person.person}>
            <Mark name={on.has(person.person) ? 'done' : 'open'} />
            <div>
              <p>
                <strong>{person.name}</strong>,{' '}
                {[...person.roles, ...person.qualifications].map(roleName).join(', ')}
                {on.has(person.person) && ` · ${o.job.acts.assigned}`}
              </p>
              <button
                type="button"
                class="key key-plain"
                onClick={() =>
                  void record(assignDraft(props.job.state, person.person, !on.has(person.person)))
                }
              >
                <span>
                  {on.has(person.person) ? o.job.acts.unassign(person.name) : o.job.acts.assign(person.name)}
                </span>
              </button>
            </div>
          </li>
        ))}
      </ul>
      <DemandList methods={props.job.head.methods} people={props.job.head.assigned} />
    </>
  )
}

export function SignSheet(props: SheetProps & { ask: Extract<JobAsk, { act: 'sign' }> }): JSX.Element {
  const { step, sign } = props.ask
  const { act, record } = useRecord(props)
  const demand = o.job.steps.demand[sign.demand] ?? w.common.roles[sign.demand] ?? sign.demand
  const sees = sign.saw.map((hash) => subjectOfHash(props.job.log, hash))
  return (
    <Form
      act={act}
      submit={o.job.acts.signKey}
      onSubmit={() => void record(countersignDraft(step, sign))}
      onCancel={props.onDone}
    >
      <p class="o-about">
        {step.title}: {sign.name || o.job.steps.signDeviation}
      </p>
      <p>
        {o.job.acts.signNote} {o.job.acts.signSees(sees.length)}
      </p>
      <ul class="o-plain">
        {sees.map((words, at) => (
          <li key={at}>{words}</li>
        ))}
      </ul>
      <p>{o.job.acts.signDemand(demand)}</p>
      {sign.atTheCar && <p>{o.job.acts.signAtCar}</p>}
    </Form>
  )
}
