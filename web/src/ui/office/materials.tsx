// Materials, adhesives, rivets and bits: suppliers' sheets of the shop, and what came with the program, with sources.
import type { JSX } from 'preact'
import type { MaterialGroup, MaterialRow, MaterialValue } from '../../office_api/rows.ts'
import { materials as words } from '../words/office_en_stock.ts'
import { Fact } from './fact.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'
import { Sheets } from './sheets.tsx'
import { ShopNav } from './shop_nav.tsx'
import './office_api.css'

export function MaterialsScreen(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.materials, 0, 'materials')
  return (
    <>
      <ShopNav here="materials" />
      <Head title={words.title} />
      <p>
        {words.intro} <a href={linkTo.lots}>{words.toLots}</a>
      </p>
      <Sheets />
      <SeenPage seen={seen} refresh={refresh}>
        {(groups) => groups.map((group) => <Group key={group.group} group={group} />)}
      </SeenPage>
    </>
  )
}

function Group({ group }: { group: MaterialGroup }): JSX.Element {
  return (
    <section class="o-api" aria-label={words.group(group.group)}>
      <h2>{words.group(group.group)}</h2>
      <p class="o-note">{words.revision(group.revision)}</p>
      {group.things.map((thing) => (
        <Thing key={thing.id} thing={thing} />
      ))}
    </section>
  )
}

function Thing({ thing }: { thing: MaterialRow }): JSX.Element {
  return (
    <details class="o-api-one">
      <summary>
        <strong>{thing.id}</strong>
        <small>{thing.about}</small>
      </summary>
      <dl class="o-facts">
        {Object.entries(thing.facts).map(([name, said]) => (
          <Fact key={name} name={words.fact(name)}>
            {said}
          </Fact>
        ))}
      </dl>
      <Values name={words.values} values={thing.values} />
      {thing.limits.length > 0 && <Values name={words.limits} values={thing.limits} />}
      {thing.grips.length > 0 && (
        <>
          <h3>{words.grips}</h3>
          <ul class="o-plain">
            {thing.grips.map((row) => (
              <li key={row.length}>{words.grip(row.length, row.low, row.high)}</li>
            ))}
          </ul>
          <p class="o-note">{words.source(thing.grips_source)}</p>
        </>
      )}
    </details>
  )
}

function Values({ name, values }: { name: string; values: readonly MaterialValue[] }): JSX.Element {
  return (
    <>
      <h3>{name}</h3>
      <dl class="o-api-fields">
        {values.map((one) => (
          <div key={`${one.name} ${one.applies} ${one.value}`}>
            <dt>{words.fact(one.name)}</dt>
            <dd>
              {words.figure(one)}
              {one.applies !== '' && <small>{words.applies(one.applies)}</small>}
              <small>{words.source(one.source)}</small>
            </dd>
          </div>
        ))}
      </dl>
    </>
  )
}
