// The API's own document as a page: groups, operations, fields, answers and refusal codes; searched, printed.
import type { JSX } from 'preact'
import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import {
  type ApiGroup,
  type ApiView,
  apiView,
  type EntryKind,
  type FieldRow,
  kindMatches,
  matches,
} from '../../core/views/api_document.ts'
import { type Answer, mapAnswer } from '../../office_api/answer.ts'
import { API_DOCUMENT } from '../../office_api/client.ts'
import { api as words } from '../words/office_en_api.ts'
import { FieldList } from './api_fields.tsx'
import { OperationRow } from './api_operation.tsx'
import './office_api.css'
import { Field } from './forms.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Empty, Head, SeenPage } from './page_parts.tsx'
import { ShopNav } from './shop_nav.tsx'

export function ApiScreen(): JSX.Element {
  const { desk } = useOffice()
  const load = async (): Promise<Answer<ApiView>> => mapAnswer(await desk.api.apiDocument(), apiView)
  const { seen, refresh } = useRoute(load, 0, 'api')
  return (
    <>
      <ShopNav here="api" />
      <SeenPage seen={seen} refresh={refresh}>
        {(view) => <ApiPage view={view} />}
      </SeenPage>
    </>
  )
}

/** The groups that a search leaves, each with what matches. */
function found(groups: readonly ApiGroup[], search: string): readonly ApiGroup[] {
  return groups
    .map((group) => ({ ...group, operations: group.operations.filter((one) => matches(one, search)) }))
    .filter((group) => group.operations.length > 0)
}

const amount = (groups: readonly ApiGroup[]): number =>
  groups.reduce((sum, group) => sum + group.operations.length, 0)

function ApiPage({ view }: { view: ApiView }): JSX.Element {
  const [search, setSearch] = useState('')
  const page = useRef<HTMLElement>(null)
  const groups = useMemo(() => found(view.groups, search), [view, search])
  const kinds = view.kinds.filter((kind) => kindMatches(kind, search))
  const openAll = (open: boolean): void => {
    for (const one of page.current?.querySelectorAll('details') ?? []) one.open = open
  }
  usePrintedOpen(openAll)
  return (
    <article class="o-api" ref={page}>
      <Head title={words.title}>
        <button type="button" class="key key-plain" onClick={() => openAll(true)}>
          <span>{words.openAll}</span>
        </button>
        <button type="button" class="key key-plain" onClick={() => openAll(false)}>
          <span>{words.closeAll}</span>
        </button>
        <button type="button" class="key key-plain" onClick={() => window.print()}>
          <span>{words.print}</span>
        </button>
      </Head>
      <p>
        {words.intro}{' '}
        <a href={API_DOCUMENT} download="openapi.json">
          {words.file}
        </a>
        , {words.version(view.version)}.
      </p>
      <p>{words.refusalShape}</p>
      <search class="o-api-search">
        <Field name={words.search} value={search} onType={setSearch} note={words.searchNote} />
      </search>
      <p role="status">{words.found(amount(groups), amount(view.groups))}</p>
      {groups.length + kinds.length === 0 && <Empty words={words.nothing} next={words.nothingNext} />}
      <GroupLinks groups={groups} kinds={kinds.length} />
      {groups.map((group) => (
        <section key={group.tag} id={`api-${group.tag}`} aria-label={words.group(group.tag)}>
          <h2>{words.group(group.tag)}</h2>
          {group.operations.map((operation) => (
            <OperationRow key={operation.id} operation={operation} />
          ))}
        </section>
      ))}
      {kinds.length > 0 && <Kinds kinds={kinds} envelope={view.envelope} />}
    </article>
  )
}

/** What is folded away on the screen is not left out on paper. */
function usePrintedOpen(openAll: (open: boolean) => void): void {
  useEffect(() => {
    const before = (): void => openAll(true)
    window.addEventListener('beforeprint', before)
    return () => window.removeEventListener('beforeprint', before)
  }, [])
}

function GroupLinks({ groups, kinds }: { groups: readonly ApiGroup[]; kinds: number }): JSX.Element {
  return (
    <nav class="o-api-groups" aria-label={words.groups}>
      <ul>
        {groups.map((group) => (
          <li key={group.tag}>
            <a href={`#api-${group.tag}`}>{words.group(group.tag)}</a> {group.operations.length}
          </li>
        ))}
        {kinds > 0 && (
          <li>
            <a href="#api-kinds">{words.kinds}</a> {kinds}
          </li>
        )}
      </ul>
    </nav>
  )
}

function Kinds(props: { kinds: readonly EntryKind[]; envelope: readonly FieldRow[] }): JSX.Element {
  return (
    <section id="api-kinds" aria-label={words.kinds}>
      <h2>{words.kinds}</h2>
      <p>{words.kindsNote}</p>
      <details class="o-api-one">
        <summary>{words.envelope}</summary>
        <FieldList fields={props.envelope} />
      </details>
      {props.kinds.map((kind) => (
        <details key={kind.kind} class="o-api-one">
          <summary>
            <code>{kind.kind}</code>
          </summary>
          {kind.fields.length === 0 ? <p class="soft">{words.noBody}</p> : <FieldList fields={kind.fields} />}
        </details>
      ))}
    </section>
  )
}
