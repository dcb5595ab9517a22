// What the chosen methods ask of people: who of the job can do and sign it, and what nobody can.
import type { JSX } from 'preact'
import type { MethodDoc } from '../../core/method.ts'
import { type Demand, demandsOf, missingBefore } from '../../core/views/office_demands.ts'
import { Mark } from '../parts/mark.tsx'
import { demands as words } from '../words/office_en_demands.ts'
import { useOffice } from './office_desk.ts'

type DemandProps = { methods: readonly MethodDoc[]; people: readonly string[] }

export function DemandList({ methods, people }: DemandProps): JSX.Element {
  const { shop } = useOffice()
  const demands = demandsOf(methods, shop.people, people)
  const unmet = demands.filter((demand) => !demand.met).length
  return (
    <section class="o-part" aria-label={words.title}>
      <h2>{words.title}</h2>
      <p role="status" class={unmet > 0 ? 'in-stop' : 'soft'}>
        {methods.length === 0 ? words.none : words.missing(unmet)}
      </p>
      <ul class="o-list">
        {missingBefore(methods).map(({ method, needs }) => (
          <li key={method}>
            <Mark name="caution" />
            <p>{words.before(method, methods.find((one) => one.id === needs)?.title ?? needs)}</p>
          </li>
        ))}
        {demands.map((demand) => (
          <DemandRow key={demand.id} demand={demand} />
        ))}
      </ul>
    </section>
  )
}

function DemandRow({ demand }: { demand: Demand }): JSX.Element {
  const { does, signs } = demand
  const asked = [
    does.length > 0 ? words.does(does.length) : '',
    signs.length > 0 ? words.signs(signs.length) : '',
  ]
  return (
    <li>
      <span class={demand.met ? 'in-bay' : 'in-stop'}>
        <Mark name={demand.met ? 'person' : 'absent'} />
      </span>
      <div>
        <p>
          <strong>{words.name(demand.id)}</strong> {asked.filter((word) => word !== '').join(', ')}
        </p>
        <small>{whoCan(demand)}</small>
      </div>
    </li>
  )
}

function whoCan({ met, onJob, inShop }: Demand): string {
  if (met) return words.by(onJob.map((one) => one.name))
  const [only] = onJob
  const here = only === undefined ? words.nobody : words.onlyOne(only.name)
  const could = inShop.length === 0 ? words.nobodyAtAll : words.could(inShop.map((one) => one.name))
  return `${here}; ${could}`
}
