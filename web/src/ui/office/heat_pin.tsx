// A plan is pinned to a job's zone: from the plan's page a job is chosen.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { type MethodDoc, stepsOf, type ZoneDoc } from '../../core/method.ts'
import { at } from '../../core/views/office_heat_document.ts'
import type { HeatZone } from '../../office_api/heat.ts'
import type { BoardJob } from '../../office_api/rows.ts'
import { pins as words } from '../words/en_heat_office.ts'
import { o } from '../words/office_en.ts'
import { Form, Options } from './forms.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { SeenPage, Sheet } from './page_parts.tsx'
import { useAct } from './use_act.ts'
import { useMethods } from './use_methods.ts'

export type MethodZone = {
  readonly key: string
  readonly method: string
  readonly title: string
  readonly zone: ZoneDoc
}

/** Every zone that these methods heat. */
export function methodZones(methods: readonly (MethodDoc | undefined)[]): readonly MethodZone[] {
  return methods.flatMap((method) => (method === undefined ? [] : heatedZones(method)))
}

function heatedZones(method: MethodDoc): readonly MethodZone[] {
  const asks = stepsOf(method).flatMap((step) => step.asks)
  const heated = new Set(asks.flatMap((ask) => (ask.kind === 'heat_run' ? [ask.zone] : [])))
  const title = o.board.method(method.title, method.revision)
  return method.zones
    .filter((zone) => heated.has(zone.id))
    .map((zone) => ({ key: `${method.id}/${zone.id}`, method: method.id, title, zone }))
}

export function PinSheet({ zone, onClose }: { zone: HeatZone; onClose: () => void }): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.board, 0, 'board')
  return (
    <Sheet title={words.pinTitle} onClose={onClose}>
      <p>{words.pinNote}</p>
      <SeenPage seen={seen} refresh={refresh}>
        {(board) => <ChooseJob zone={zone} jobs={board.jobs.filter((one) => !one.filed)} onClose={onClose} />}
      </SeenPage>
    </Sheet>
  )
}

type ChooseProps = { zone: HeatZone; jobs: readonly BoardJob[]; onClose: () => void }

function ChooseJob({ zone, jobs, onClose }: ChooseProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const [job, setJob] = useState('')
  const [chosen, setChosen] = useState('')
  const [pinned, setPinned] = useState('')
  const { docs } = useMethods(jobs.flatMap((one) => one.methods.map(({ digest }) => digest)))
  const zonesOf = (one: BoardJob | undefined): readonly MethodZone[] =>
    methodZones((one?.methods ?? []).map(({ digest }) => docs.get(digest)))
  const withZones = jobs.filter((one) => zonesOf(one).length > 0)
  const zones = zonesOf(jobs.find((one) => one.job === job))
  // The method's zone of the same id is the likely one; it is only proposed.
  const likely = zones.find((one) => one.zone.id === at(zone.document, ['id'])) ?? zones[0]
  const picked = zones.find((one) => one.key === chosen) ?? likely
  const submit = (): void => {
    if (picked === undefined) {
      act.lack(words.choose)
      return
    }
    const pin = { method: picked.method, zone: picked.zone.id, plan: zone.digest }
    void act.run(
      () => desk.api.pinHeat(job, pin),
      () => setPinned(picked.zone.name),
    )
  }
  if (withZones.length === 0) return <p>{words.noJobs}</p>
  if (pinned !== '') return <p role="status">{words.done(pinned)}</p>
  return (
    <Form act={act} submit={words.key} onSubmit={submit} onCancel={onClose}>
      <Options
        name={words.job}
        one
        options={withZones.map((one) => ({ id: one.job, name: one.order, note: one.part }))}
        chosen={[job]}
        onChange={([one = '']) => setJob(one)}
      />
      {zones.length > 0 && (
        <Options
          name={words.zone}
          one
          options={zones.map(({ key, title, zone: { name } }) => ({ id: key, name, note: title }))}
          chosen={[picked?.key ?? '']}
          onChange={([key = '']) => setChosen(key)}
        />
      )}
    </Form>
  )
}
