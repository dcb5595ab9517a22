// A method file on its way in: dropped or chosen, checked without being kept, its faults beside their lines.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { CheckedFile, MethodFile } from '../../office_api/rows.ts'
import { importing as words } from '../words/office_en_methods.ts'
import { ActWords, FileField } from './forms.tsx'
import { FileFaults, Remarks } from './method_file_faults.tsx'
import { useOffice } from './office_desk.ts'
import { type Act, useAct } from './use_act.ts'
import './office_methods.css'

/** The chosen files as texts; undefined where one can no longer be read, or there is not one YAML among them. */
async function readFiles(files: readonly File[]): Promise<MethodFile | undefined> {
  const [yaml, ...more] = files.filter((file) => /\.ya?ml$/i.test(file.name))
  if (yaml === undefined || more.length > 0) return undefined
  const drawn = files.filter((file) => /\.svg$/i.test(file.name))
  try {
    const texts = await Promise.all(drawn.map(async (one) => [one.name, await one.text()] as const))
    return { file: yaml.name, yaml: await yaml.text(), drawings: Object.fromEntries(texts) }
  } catch {
    return undefined
  }
}

type Looked = { readonly file: MethodFile; readonly checked: CheckedFile }

function useLook() {
  const { desk } = useOffice()
  const act = useAct()
  const [looked, setLooked] = useState<Looked>()
  const look = async (files: readonly File[]): Promise<void> => {
    setLooked(undefined)
    act.clear()
    if (files.length === 0) return
    const file = await readFiles(files)
    if (file === undefined) return act.lack(words.oneFile)
    await act.run(
      (stop) => desk.api.checkMethod(file, stop),
      (checked) => setLooked({ file, checked }),
    )
  }
  return { act, looked, look, forget: () => setLooked(undefined) }
}

export function MethodImport({ onTaken }: { onTaken: () => void }): JSX.Element {
  const { act, looked, look, forget } = useLook()
  const [files, setFiles] = useState<readonly File[]>([])
  const [taken, setTaken] = useState('')
  const pick = (picked: readonly File[]): void => {
    setFiles(picked)
    setTaken('')
    void look(picked)
  }
  const done = (said: string): void => {
    setTaken(said)
    setFiles([])
    forget()
    onTaken()
  }
  return (
    <section class="o-part" aria-label={words.title}>
      <h2>{words.title}</h2>
      <DropPlace onPick={pick} />
      <Chosen files={files} />
      {act.state.at === 'working' ? <p role="status">{words.checking}</p> : <ActWords state={act.state} />}
      {looked && <Found looked={looked} onTaken={done} onAgain={() => void look(files)} />}
      <p role="status">{taken}</p>
    </section>
  )
}

/** Files may be dropped on it; the file input in it is the way without a mouse. */
function DropPlace({ onPick }: { onPick: (files: readonly File[]) => void }): JSX.Element {
  const [over, setOver] = useState(false)
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the input inside takes the same files by key
    <div
      class={over ? 'o-drop o-drop-over' : 'o-drop'}
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault()
        setOver(false)
        onPick([...(event.dataTransfer?.files ?? [])])
      }}
    >
      <p>{words.drop}</p>
      <FileField name={words.files} accept=".yaml,.yml,.svg" many onPick={onPick} />
    </div>
  )
}

function Chosen({ files }: { files: readonly File[] }): JSX.Element | null {
  if (files.length === 0) return null
  const isDrawing = (file: File): boolean => /\.svg$/i.test(file.name)
  const named = files.filter((file) => !isDrawing(file)).map((file) => file.name)
  return <p class="o-note">{words.chosen(named, files.filter(isDrawing).length)}</p>
}

type FoundProps = { looked: Looked; onTaken: (said: string) => void; onAgain: () => void }

function Found({ looked, onTaken, onAgain }: FoundProps): JSX.Element {
  const { file, checked } = looked
  if (checked.faults.length > 0) {
    return (
      <>
        <FileFaults faults={checked.faults} yaml={file.yaml} />
        <button type="button" class="key key-plain" onClick={onAgain}>
          <span>{words.again}</span>
        </button>
      </>
    )
  }
  return (
    <div class="o-stack">
      <p>
        <strong>{words.clean(checked.methods.length)}</strong>
      </p>
      <ul class="o-plain">
        {checked.methods.map((method) => (
          <li key={method.digest}>
            {words.method(method.title, method.revision, method.steps)} (
            {method.known ? words.known : words.isNew})
          </li>
        ))}
      </ul>
      {checked.remarks.length > 0 && <Remarks remarks={checked.remarks} yaml={file.yaml} />}
      {checked.methods.every((method) => method.known) ? (
        <p>{words.allKnown}</p>
      ) : (
        <ImportKey looked={looked} onTaken={onTaken} />
      )}
    </div>
  )
}

function ImportKey({ looked, onTaken }: Omit<FoundProps, 'onAgain'>): JSX.Element {
  const { desk } = useOffice()
  const act: Act = useAct()
  const said = looked.checked.methods.map((one) => words.taken(one.title, one.revision)).join(' ')
  return (
    <>
      <ActWords state={act.state} />
      <button
        type="button"
        class="key key-main"
        aria-disabled={act.state.at === 'working' ? 'true' : undefined}
        onClick={() =>
          void act.run(
            (stop) => desk.api.importMethod(looked.file, stop),
            () => onTaken(said),
          )
        }
      >
        <span>{act.state.at === 'working' ? words.importing : words.key}</span>
      </button>
    </>
  )
}
