// The heat plans of one job: which planned zone stands for each heat zone of its methods.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { MethodDoc } from '../../core/method.ts'
import type { CardPlan } from '../../core/views/card_plans.ts'
import type { Seen } from '../../office_api/feed.ts'
import type { HeatZoneRow } from '../../office_api/heat.ts'
import { heat, pins as words } from '../words/en_heat_office.ts'
import { ActWords, Form, Options } from './forms.tsx'
import { type MethodZone, methodZones } from './heat_pin.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { LinkButton, SeenPage, Sheet } from './page_parts.tsx'
import { linkTo } from './place.ts'
import { useAct } from './use_act.ts'
import './office_heat.css'

/** The job page hears the plans, for its curves too. */
export type JobPlans = { readonly seen: Seen<readonly CardPlan[]>; refresh(): void }
export type JobHeatProps = { job: string; methods: readonly MethodDoc[]; closed: boolean; plans: JobPlans }

/** Nothing where the methods heat nothing. */
export function JobHeat({ job, methods, closed, plans }: JobHeatProps): JSX.Element | null {
  const zones = methodZones(methods)
  return zones.length === 0 ? null : <Plans job={job} zones={zones} closed={closed} plans={plans} />
}

type PlansProps = Omit<JobHeatProps, 'methods'> & { zones: readonly MethodZone[] }

function Plans({ job, zones, closed, plans: { seen, refresh } }: PlansProps): JSX.Element {
  const [asked, setAsked] = useState<MethodZone>()
  const done = (): void => {
    setAsked(undefined)
    refresh()
  }
  return (
    <section class="o-part" aria-label={words.title}>
      <h2>{words.title}</h2>
      <p class="o-note">{heat.first}</p>
      <SeenPage seen={seen} refresh={refresh}>
        {(found) => (
          <>
            {found.length === 0 && <p class="soft">{words.none}</p>}
            <ul class="o-plain">
              {zones.map((zone) => (
                <Pinned
                  key={zone.key}
                  job={job}
                  zone={zone}
                  pin={pinOf(found, zone)}
                  closed={closed}
                  onPin={() => setAsked(zone)}
                  refresh={refresh}
                />
              ))}
            </ul>
          </>
        )}
      </SeenPage>
      {asked && (
        <Sheet title={words.changeFor(asked.zone.name)} onClose={() => setAsked(undefined)}>
          <ChoosePlan job={job} zone={asked} onDone={done} />
        </Sheet>
      )}
    </section>
  )
}

const pinOf = (found: readonly CardPlan[], { method, zone }: MethodZone): CardPlan | undefined =>
  found.find((pin) => pin.method === method && pin.zone === zone.id)

type PinnedProps = {
  job: string
  zone: MethodZone
  pin: CardPlan | undefined
  closed: boolean
  onPin: () => void
  refresh: () => void
}

function Pinned({
  job,
  zone: { method, title, zone },
  pin,
  closed,
  onPin,
  refresh,
}: PinnedProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const unpin = () => act.run(() => desk.api.unpinHeat(job, { method, zone: zone.id }), refresh)
  return (
    <li>
      <p>
        <strong>{zone.name}</strong>
        {pin && (
          <>
            {': '}
            <a href={linkTo.heatZone(pin.plan)} aria-label={`${words.open}: ${pin.name}`}>
              {pin.name}
            </a>
          </>
        )}
        <small>{title}</small>
      </p>
      {pin && <p class="o-note">{pin.sentence}</p>}
      {!closed && (
        <p class="hz-pin-keys">
          <LinkButton label={words.changeFor(zone.name)} onPress={onPin}>
            {words.change}
          </LinkButton>
          {pin && (
            <LinkButton label={words.unpinOf(zone.name)} onPress={() => void unpin()}>
              {words.unpin}
            </LinkButton>
          )}
        </p>
      )}
      <ActWords state={act.state} />
    </li>
  )
}

type ChooseProps = { job: string; zone: MethodZone; onDone: () => void }

function ChoosePlan(props: ChooseProps): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.heatZones, 0, 'heat zones')
  return (
    <SeenPage seen={seen} refresh={refresh}>
      {(zones) => <PlanForm {...props} planned={zones.filter((one) => one.state === 'done')} />}
    </SeenPage>
  )
}

function PlanForm({ job, zone, planned, onDone }: ChooseProps & { planned: readonly HeatZoneRow[] }) {
  const { desk } = useOffice()
  const act = useAct()
  const [chosen, setChosen] = useState(planned.find((one) => one.id === zone.zone.id)?.digest ?? '')
  const submit = (): void => {
    if (chosen === '') {
      act.lack(words.choosePlan)
      return
    }
    const pin = { method: zone.method, zone: zone.zone.id, plan: chosen }
    void act.run(() => desk.api.pinHeat(job, pin), onDone)
  }
  if (planned.length === 0) {
    return (
      <p>
        {words.noPlans} <a href={linkTo.heat}>{words.toZones}</a>
      </p>
    )
  }
  return (
    <Form act={act} submit={words.key} onSubmit={submit} onCancel={onDone}>
      <Options
        name={words.which}
        one
        options={planned.map((one) => ({ id: one.digest, name: one.name, note: one.sentence }))}
        chosen={[chosen]}
        onChange={([digest = '']) => setChosen(digest)}
      />
    </Form>
  )
}
