// Opening a job: the order number and the part are enough; nothing about the VIN is refused.
import type { JSX } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { checkVin } from '../../core/views/vin.ts'
import type { NewJob } from '../../office_api/rows.ts'
import { roleName } from '../words/names.ts'
import { o } from '../words/office_en.ts'
import { demands } from '../words/office_en_demands.ts'
import { DemandList } from './demand_list.tsx'
import { Field, Form, Options } from './forms.tsx'
import { MethodPicker } from './method_picker.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'
import { useAct } from './use_act.ts'
import { useMethods } from './use_methods.ts'

const words = o.openJob

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

/** What the VIN itself says, in words; every text is taken. */
function vinNote(vin: string): string {
  const remarks = vin.trim() === '' ? [] : checkVin(vin).remarks
  const odd = remarks.some((remark) => remark.code !== 'digit_right')
  return remarks.length === 0
    ? words.vinNote
    : [...remarks.map(demands.vin), odd ? demands.vinTaken : ''].filter((word) => word !== '').join(' ')
}

const ORDER_MS = 400

/** Whether another job has this order number: said while it is typed, and no reason to refuse. */
function useOrderNote(order: string): string | undefined {
  const { desk } = useOffice()
  const [note, setNote] = useState<string>()
  const typed = order.trim()
  useEffect(() => {
    setNote(undefined)
    if (typed === '') return undefined
    let gone = false
    const ask = async (): Promise<void> => {
      const answer = await desk.api.ofOrder(typed)
      if (gone || answer.kind !== 'value' || answer.value.length === 0) return
      const known = answer.value.map((one) =>
        one.filed ? demands.orderFiled(one.part) : demands.orderOpen(one.part),
      )
      setNote(demands.orderTaken(known))
    }
    const timer = setTimeout(() => void ask(), ORDER_MS)
    return () => {
      gone = true
      clearTimeout(timer)
    }
  }, [desk, typed])
  return note
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
        <Demands job={job} />
      </Form>
    </>
  )
}

type PartProps = { job: NewJob; set: (change: Partial<NewJob>) => void }

/** What the chosen methods ask of the chosen people, before anybody stands at the car. */
function Demands({ job }: { job: NewJob }): JSX.Element {
  const { docs } = useMethods(job.methods)
  const methods = job.methods.flatMap((digest) => docs.get(digest) ?? [])
  return <DemandList methods={methods} people={job.people} />
}

function VehicleFields({ job, set }: PartProps): JSX.Element {
  const orderNote = useOrderNote(job.order)
  return (
    <div class="o-stack">
      <Field
        name={words.order}
        value={job.order}
        onType={(order) => set({ order })}
        note={orderNote}
        max={40}
      />
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
    note: [...person.roles, ...person.qualifications].map(roleName).join(', '),
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
