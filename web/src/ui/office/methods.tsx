// Methods: the way in for a file, and the list of what is here.
import type { JSX } from 'preact'
import type { MethodRow } from '../../office_api/rows.ts'
import { date, grouped } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { importing } from '../words/office_en_methods.ts'
import { MethodImport } from './method_import.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Empty, Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'

const words = o.methods
const DIGEST_SHOWN = 16

export function MethodsScreen(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.methods, 0, 'methods')
  return (
    <>
      <Head title={words.title} />
      <p>
        <a href={linkTo.guide}>{importing.guide}</a>
      </p>
      <SeenPage seen={seen} refresh={refresh}>
        {(methods) =>
          methods.length === 0 ? (
            <Empty words={words.empty} next={words.emptyNext} />
          ) : (
            <MethodTable methods={methods} />
          )
        }
      </SeenPage>
      <MethodImport onTaken={refresh} />
    </>
  )
}

function MethodTable({ methods }: { methods: readonly MethodRow[] }): JSX.Element {
  return (
    <table class="o-table" aria-label={words.title}>
      <thead>
        <tr>
          <th scope="col">{words.method}</th>
          <th scope="col">{words.revision}</th>
          <th scope="col">{words.imported}</th>
          <th scope="col">{words.digest}</th>
        </tr>
      </thead>
      <tbody>
        {methods.map((method) => (
          <tr key={method.digest}>
            <th scope="row">
              <a href={linkTo.method(method.digest)} aria-label={words.read(method.title)}>
                {method.title}
              </a>
              {method.invented && <small>{words.invented}</small>}
            </th>
            <td data-name={words.revision}>{method.revision}</td>
            <td data-name={words.imported}>{date(method.imported_ms)}</td>
            <td data-name={words.digest} class="o-hex">
              {grouped(method.digest.slice(0, DIGEST_SHOWN))}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
