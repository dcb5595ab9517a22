// The heat zones that are here, each with its plan's answer in one sentence, and the way in for a document.
import type { JSX } from 'preact'
import type { HeatZoneRow } from '../../office_api/heat.ts'
import { planning, heat as words } from '../words/en_heat_office.ts'
import { date } from '../words/format.ts'
import { HeatBringIn } from './heat_bring_in.tsx'
import { personName, useOffice, useRoute } from './office_desk.ts'
import { Empty, Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'
import './office_heat.css'

const LOOK_EVERY_MS = 4000
const ORDER_EVERY_MS = 30_000

export function HeatZonesScreen(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.heatZones, LOOK_EVERY_MS, 'heat zones')
  return (
    <>
      <Head title={words.title}>
        <a class="key key-main" href={linkTo.heat_new}>
          <span>{words.begin}</span>
        </a>
      </Head>
      <p>{words.intro}</p>
      <p>
        <strong>{words.first}</strong>
      </p>
      <SeenPage seen={seen} refresh={refresh}>
        {(zones) =>
          zones.length === 0 ? (
            <Empty words={words.empty} next={words.emptyNext} />
          ) : (
            <ZoneTable zones={zones} />
          )
        }
      </SeenPage>
      <HeatBringIn />
    </>
  )
}

function ZoneTable({ zones }: { zones: readonly HeatZoneRow[] }): JSX.Element {
  const { desk } = useOffice()
  const board = useRoute(desk.api.board, ORDER_EVERY_MS, 'board')
  const filed = useRoute(() => desk.api.filed({ words: '' }), ORDER_EVERY_MS, 'newest filed')
  const known = [...(board.seen.value?.jobs ?? []), ...(filed.seen.value?.filed ?? [])]
  const orders = new Map(known.map((one) => [one.job, one.order]))
  return (
    <table class="o-table hz-zones" aria-label={words.title}>
      <thead>
        <tr>
          <th scope="col">{words.zone}</th>
          <th scope="col">{words.plan}</th>
          <th scope="col">{words.pinned}</th>
          <th scope="col">{words.added}</th>
        </tr>
      </thead>
      <tbody>
        {zones.map((zone) => (
          <Row key={zone.digest} zone={zone} orders={orders} />
        ))}
      </tbody>
    </table>
  )
}

type RowProps = { zone: HeatZoneRow; orders: ReadonlyMap<string, string> }

function Row({ zone, orders }: RowProps): JSX.Element {
  const { shop } = useOffice()
  return (
    <tr>
      <th scope="row">
        <a href={linkTo.heatZone(zone.digest)} aria-label={words.open(zone.name)}>
          {zone.name}
        </a>
        {zone.invented && <small>{words.inventedShort}</small>}
      </th>
      <td data-name={words.plan}>{planWords(zone)}</td>
      <td data-name={words.pinned}>
        {zone.jobs.length === 0 && <span class="soft">{words.noJobs}</span>}
        {zone.jobs.map((job) => (
          <p key={job}>
            <a class="o-link" href={linkTo.job(job)}>
              {jobWords(job, orders)}
            </a>
          </p>
        ))}
      </td>
      <td data-name={words.added}>{words.by(date(zone.added_ms), personName(shop, zone.by))}</td>
    </tr>
  )
}

/** The board knows the open jobs, the register the newest filed; what neither knows was filed long ago. */
function jobWords(job: string, orders: RowProps['orders']): string {
  const order = orders.get(job)
  return order === undefined ? words.filedJob(job.slice(0, 8)) : words.job(order)
}

function planWords({ state, sentence }: HeatZoneRow): string {
  const { none, waiting, runs, cancelled, failed } = planning
  const said = { none, waiting, running: runs, cancelled, failed }
  return state === 'done' ? sentence : said[state]
}
