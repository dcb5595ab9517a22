// The makers' instructions of a job or of a method: what there is, adding one, taking one away.
import type { JSX } from 'preact'
import { paperUrl } from '../../office_api/client.ts'
import type { MakersPaper } from '../../office_api/rows.ts'
import { date } from '../words/format.ts'
import { paperWords as words } from '../words/office_en_papers.ts'
import { fileName } from './file_name.ts'
import { ActWords, FileField } from './forms.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import './papers.css'
import { SureKey } from './sure_key.tsx'
import { useAct } from './use_act.ts'

const MOST_BYTES = 40_000_000

type PapersProps = {
  /** Empty on a method's own page. */
  job?: string
  /** The methods whose instructions are listed too; on a method's own page it alone. */
  methods: readonly string[]
}

/** On a job's page it adds to the job, on a method's page to the method. */
export function Papers({ job = '', methods }: PapersProps): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.papers, 0, 'papers')
  const mine = (seen.value ?? []).filter(
    (paper) =>
      (paper.job === '' || paper.job === job) && (paper.method === '' || methods.includes(paper.method)),
  )
  return (
    <section class="o-part" aria-label={words.title}>
      <h2>{words.title}</h2>
      {seen.value && mine.length === 0 && <p class="soft">{words.none}</p>}
      <ul class="o-papers">
        {mine.map((paper) => (
          <Row key={paper.id} paper={paper} ofMethod={job !== '' && paper.job === ''} refresh={refresh} />
        ))}
      </ul>
      <AddPaper job={job} method={job === '' ? (methods[0] ?? '') : ''} refresh={refresh} />
    </section>
  )
}

type RowProps = { paper: MakersPaper; ofMethod: boolean; refresh: () => void }

function Row({ paper, ofMethod, refresh }: RowProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const remove = () => act.run(() => desk.api.removePaper(paper.id), refresh)
  return (
    <li>
      <p class="o-paper-about">
        <a
          class="o-link"
          href={paperUrl(paper.sha256)}
          download={`${paper.name}.pdf`}
          aria-label={words.save(paper.name)}
        >
          {paper.name}
        </a>
        <br />
        <small>
          {words.line(paper.bytes, date(paper.added_ms))}
          {ofMethod && `, ${words.ofMethod}`}
        </small>
      </p>
      {!ofMethod && (
        <SureKey
          act={act}
          name={words.remove}
          label={words.removeOf(paper.name)}
          sure={words.removeSure(paper.name)}
          keep={words.keep}
          onSure={() => void remove()}
        />
      )}
    </li>
  )
}

type AddProps = { job: string; method: string; refresh: () => void }

function AddPaper({ job, method, refresh }: AddProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const add = async ([file]: readonly File[]): Promise<void> => {
    if (file === undefined) return
    if (!/\.pdf$/i.test(file.name)) return act.lack(words.notPdf)
    if (file.size > MOST_BYTES) return act.lack(words.tooLarge(file.size))
    await act.run((stop) => desk.api.addPaper({ name: nameOf(file), job, method }, file, stop), refresh)
  }
  return (
    <>
      <FileField name={words.add} accept="application/pdf,.pdf" onPick={(files) => void add(files)} />
      <p class="o-note">{words.limit}</p>
      {act.state.at === 'working' ? <p role="status">{words.adding}</p> : <ActWords state={act.state} />}
    </>
  )
}

/** Without its ending, as the phones show it. */
const nameOf = ({ name }: File): string => fileName(name.replace(/\.pdf$/i, ''), words.title)
