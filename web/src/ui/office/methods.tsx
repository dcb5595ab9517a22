// Methods: import a file with its faults line by line, and the list of what is here.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { FileFault } from '../../office_api/answer.ts'
import type { MethodFile, MethodRow } from '../../office_api/rows.ts'
import { date, grouped } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { FileField, Form } from './forms.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { Empty, Head, SeenPage } from './page_parts.tsx'
import { linkTo } from './place.ts'
import { useAct } from './use_act.ts'

const words = o.methods
const DIGEST_SHOWN = 16

export function MethodsScreen(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.methods, 0, 'methods')
  return (
    <>
      <Head title={words.title} />
      <ImportForm onTaken={refresh} />
      <SeenPage seen={seen} refresh={refresh}>
        {(methods) =>
          methods.length === 0 ? (
            <Empty words={words.empty} next={words.emptyNext} />
          ) : (
            <MethodTable methods={methods} />
          )
        }
      </SeenPage>
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

/** The chosen files as texts; undefined where one can no longer be read. */
async function readFiles(file: File, drawings: readonly File[]): Promise<MethodFile | undefined> {
  try {
    const texts = await Promise.all(drawings.map(async (one) => [one.name, await one.text()] as const))
    return { file: file.name, yaml: await file.text(), drawings: Object.fromEntries(texts) }
  } catch {
    return undefined
  }
}

function useImport(onTaken: () => void) {
  const { desk } = useOffice()
  const act = useAct()
  const [taken, setTaken] = useState('')
  const forget = (): void => {
    setTaken('')
    act.clear()
  }
  const send = async (file: File | undefined, drawings: readonly File[]): Promise<void> => {
    forget()
    if (file === undefined) return act.lack(words.needFile)
    const method = await readFiles(file, drawings)
    if (method === undefined) return act.lack(words.notAFile)
    await act.run(
      (stop) => desk.api.importMethod(method, stop),
      (made) => {
        setTaken((made.known ? words.known : words.taken)(made.title, made.revision))
        onTaken()
      },
    )
  }
  return { act, taken, send, forget }
}

function ImportForm({ onTaken }: { onTaken: () => void }): JSX.Element {
  const { act, taken, send, forget } = useImport(onTaken)
  const [file, setFile] = useState<File>()
  const [drawings, setDrawings] = useState<readonly File[]>([])
  const pick = ([picked]: readonly File[]): void => {
    setFile(picked)
    forget()
  }
  const faults = act.state.at === 'refused' ? act.state.refusal.faults : []
  return (
    <section class="o-part" aria-label={words.importTitle}>
      <h2>{words.importTitle}</h2>
      <Form
        act={act}
        submit={words.key}
        working={words.working}
        label={words.importTitle}
        stoppable
        onSubmit={() => void send(file, drawings)}
      >
        <FileField name={words.file} accept=".yaml,.yml" onPick={pick} />
        <FileField name={words.drawings} accept=".svg" many onPick={setDrawings} />
        {faults.length > 0 && <Faults faults={faults} />}
        <p role="status">{taken}</p>
      </Form>
    </section>
  )
}

function Faults({ faults }: { faults: readonly FileFault[] }): JSX.Element {
  return (
    <div class="o-faults" role="alert">
      <p class="in-stop">
        <strong>{words.faults(faults.length)}</strong>
      </p>
      <ol class="o-plain">
        {faults.map((fault) => (
          <li key={`${fault.line} ${fault.message}`}>
            <strong>{words.line(fault.line)}</strong> {fault.message}
          </li>
        ))}
      </ol>
    </div>
  )
}
