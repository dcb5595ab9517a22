// Opening a job: the order number and the part are enough; nothing about the VIN is refused.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { NewJob } from '../../office_api/rows.ts'
import { w } from '../words/en.ts'
import { o } from '../words/office_en.ts'
import { Field, Form, Options } from './forms.tsx'
import { MethodPicker } from './method_picker.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'
import { useAct } from './use_act.ts'

const words = o.openJob
const VIN_LENGTH = 17

const BLANK: NewJob = {
  order: '',
  vin: '',
  vehicle: '',
  part: '',
  side: 'none',
  place: '',
  invented: false,
  methods: [],
  people: [],
}

const SIDES = (['left', 'right', 'none'] as const).map((id) => ({ id, name: words.sides[id] }))

function lackOf(job: NewJob): string {
  if (job.order.trim() === '') return words.needOrder
  return job.part.trim() === '' ? words.needPart : ''
}

const trimmed = (job: NewJob): NewJob => ({
  ...job,
  order: job.order.trim(),
  vin: job.vin.trim(),
  vehicle: job.vehicle.trim(),
  part: job.part.trim(),
  place: job.place.trim(),
})

function vinNote(vin: string): string {
  const length = vin.trim().length
  return length === 0 || length === VIN_LENGTH ? words.vinNote : words.vinOdd(length)
}

export function NewJobScreen(): JSX.Element {
  const { desk, demo, go } = useOffice()
  const act = useAct()
  const [job, setJob] = useState<NewJob>({ ...BLANK, invented: demo })
  const set = (change: Partial<NewJob>): void => setJob({ ...job, ...change })
  const submit = (): void => {
    const lack = lackOf(job)
    if (lack !== '') act.lack(lack)
    else
      void act.run(
        () => desk.api.openJob(trimmed(job)),
        (made) => go(linkTo.job(made.job)),
      )
  }
  return (
    <>
      <Head title={words.title} />
      <Form
        act={act}
        submit={words.key}
        label={words.title}
        onSubmit={submit}
        onCancel={() => go(linkTo.board)}
      >
        <div class="o-two">
          <VehicleFields job={job} set={set} />
          <WorkFields job={job} set={set} demo={demo} />
        </div>
      </Form>
    </>
  )
}

type PartProps = { job: NewJob; set: (change: Partial<NewJob>) => void }

function VehicleFields({ job, set }: PartProps): JSX.Element {
  return (
    <div class="o-stack">
      <Field name={words.order} value={job.order} onType={(order) => set({ order })} max={40} />
      <Field
        name={words.vin}
        value={job.vin}
        onType={(vin) => set({ vin })}
        note={vinNote(job.vin)}
        max={40}
      />
      <Field
        name={words.vehicle}
        value={job.vehicle}
        onType={(vehicle) => set({ vehicle })}
        note={words.optional}
      />
      <Field name={words.part} value={job.part} onType={(part) => set({ part })} />
      <Options
        name={words.side}
        options={SIDES}
        chosen={[job.side]}
        one
        onChange={([side]) => set({ side: side as NewJob['side'] })}
      />
      <Field
        name={words.place}
        value={job.place}
        onType={(place) => set({ place })}
        note={words.optional}
        max={80}
      />
    </div>
  )
}

function WorkFields({ job, set, demo }: PartProps & { demo: boolean }): JSX.Element {
  const { desk, shop } = useOffice()
  const { seen, refresh } = useRoute(desk.api.methods, 0, 'methods')
  const people = shop.people.map((person) => ({
    id: person.person,
    name: person.name,
    note: person.roles.map((role) => w.common.roles[role] ?? role).join(', '),
  }))
  return (
    <div class="o-stack">
      <SeenPage seen={seen} refresh={refresh}>
        {(methods) => (
          <MethodPicker
            methods={methods}
            chosen={job.methods}
            onChange={(chosen) => set({ methods: chosen })}
          />
        )}
      </SeenPage>
      {people.length === 0 ? (
        <p class="soft">{words.noPeople}</p>
      ) : (
        <Options
          name={words.people}
          options={people}
          chosen={job.people}
          onChange={(chosen) => set({ people: chosen })}
        />
      )}
      {demo && (
        <Options
          name={words.demo}
          options={[{ id: 'invented', name: words.invented }]}
          chosen={job.invented ? ['invented'] : []}
          onChange={(chosen) => set({ invented: chosen.length > 0 })}
        />
      )}
    </div>
  )
}
