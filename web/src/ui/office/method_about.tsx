// What a method is about, before its steps: vehicle, rivets, zones, materials, drawings, and the jobs that pin it.
import type { JSX } from 'preact'
import type { MethodDoc } from '../../core/method.ts'
import { drawingUrl, yamlUrl } from '../../office_api/client.ts'
import { listed } from '../words/format.ts'
import { reading as words } from '../words/office_en_methods.ts'
import { Fact } from './fact.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'

type Props = { method: MethodDoc; digest: string }

export function MethodAbout({ method, digest }: Props): JSX.Element {
  return (
    <section class="o-method-about" aria-label={words.about}>
      <p>
        <a href={yamlUrl(digest)} download={`${method.id}.yaml`}>
          {words.yaml}
        </a>
      </p>
      <dl class="o-facts">
        <Fact name={words.vehicle}>{method.vehicle ?? ''}</Fact>
        <Fact name={words.part}>{method.part ?? ''}</Fact>
        <Fact name={words.after}>{method.needs_method ?? ''}</Fact>
        <Fact name={words.groups}>
          {method.groups.map((one) => `${one.name}: ${words.positions(one.positions.length)}`).join('; ')}
        </Fact>
        <Fact name={words.zones}>
          {method.zones
            .map((one) => `${one.name}: ${words.pads(one.pads.length, one.sensors.length)}`)
            .join('; ')}
        </Fact>
        <Fact name={words.materials}>{listed(method.materials.map((one) => one.name))}</Fact>
        <Fact name={words.conditions}>
          {method.conditions
            .map((one) => (one.asked_each_morning ? `${one.name} (${words.eachMorning})` : one.name))
            .join('; ')}
        </Fact>
      </dl>
      <PinnedBy digest={digest} />
      <Drawings method={method} />
    </section>
  )
}

function PinnedBy({ digest }: { digest: string }): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(() => desk.api.pinning(digest), 0, `pinning ${digest}`)
  return (
    <>
      <h2>{words.jobs}</h2>
      <SeenPage seen={seen} refresh={refresh}>
        {(jobs) => (
          <ul class="o-plain">
            {jobs.length === 0 && <li class="soft">{words.noJobs}</li>}
            {jobs.map((one) => (
              <li key={one.job}>
                <a href={linkTo.job(one.job)}>{one.order}</a>{' '}
                {[one.vehicle, one.filed_ms > 0 ? words.filed : '', one.now ? '' : words.notNow]
                  .filter((word) => word !== '')
                  .join(', ')}
              </li>
            ))}
          </ul>
        )}
      </SeenPage>
    </>
  )
}

function Drawings({ method }: { method: MethodDoc }): JSX.Element | null {
  const drawings = Object.entries(method.drawings)
  if (drawings.length === 0) return null
  return (
    <details>
      <summary>
        {words.drawings}, {drawings.length}
      </summary>
      <ul class="o-drawings">
        {drawings.map(([name, sha256]) => (
          <li key={name}>
            <img src={drawingUrl(sha256)} alt={words.drawing(name)} loading="lazy" />
            <small>{name}</small>
          </li>
        ))}
      </ul>
    </details>
  )
}
