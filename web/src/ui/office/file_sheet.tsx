// Filing: what is missing, the written reason, the seal while it is made, and the dossier.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { OfficeJob } from '../../core/views/office_job.ts'
import { dossierUrl, reportUrl } from '../../office_api/client.ts'
import type { Dossier } from '../../office_api/rows.ts'
import { bytes, grouped } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { Form, TextField } from './forms.tsx'
import { LackList, PhonesHolding } from './job_lacks.tsx'
import type { SheetProps } from './job_sheets.tsx'
import { useOffice } from './office_desk.ts'
import { useAct } from './use_act.ts'

const words = o.job.file

/** Room for the list of what is missing, which stands in the written reason too. */
const LONGEST_REASON = 2000
const LONGEST = 4000

/** The reason as it is recorded: in the person's own words, then what this page said was missing. */
function wholeReason(job: OfficeJob, typed: string): string {
  const missing = job.lacks.map((lack) => o.job.lacks[lack.code](lack.count, lack.words).join(''))
  const said = missing.length === 0 ? [] : [words.missing(missing.join('; '))]
  return [typed.trim(), ...said]
    .filter((line) => line !== '')
    .join('\n')
    .slice(0, LONGEST)
}

type FileProps = SheetProps & { addendum: boolean; refresh: () => void }

/** Files a job, or what came since as an addendum: which of them was asked for, not what the job became meanwhile. */
export function FileSheet({ job, addendum, onDone, refresh }: FileProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const [reason, setReason] = useState('')
  const [dossier, setDossier] = useState<Dossier>()
  // The server may know of a lack that this page does not see; then it asks for the reason too.
  const refused = act.state.at === 'refused' && act.state.refusal.code === 'incomplete'
  const incomplete = job.lacks.length > 0 || refused
  const submit = (): void => {
    if (incomplete && reason.trim() === '') {
      act.lack(o.act.needReason)
      return
    }
    const file = addendum ? desk.api.addendum : desk.api.file
    void act.run(
      (stop) => file(job.log.job, wholeReason(job, reason), stop),
      (made) => {
        setDossier(made)
        refresh()
      },
    )
  }
  if (dossier) return <Sealed dossier={dossier} />
  return (
    <Form
      act={act}
      submit={words.submit(addendum, incomplete)}
      tone={incomplete ? 'stop' : 'main'}
      working={`${words.working}. ${words.workingNote}`}
      stoppable
      onSubmit={submit}
      onCancel={onDone}
    >
      {addendum && job.filing.at === 'filed' && <p>{words.addendum(job.filing.after.size)}</p>}
      {job.lacks.length === 0 ? <p>{words.complete}</p> : <p>{words.incomplete(job.lacks.length)}</p>}
      <LackList lacks={job.lacks} />
      <PhonesHolding job={job} />
      <p>{addendum ? words.addendumNote : words.note}</p>
      {incomplete && <p>{words.needs}</p>}
      {(incomplete || addendum) && (
        <TextField
          name={incomplete ? words.reason : words.why}
          value={reason}
          onType={setReason}
          max={LONGEST_REASON}
        />
      )}
    </Form>
  )
}

function Sealed({ dossier }: { dossier: Dossier }): JSX.Element {
  return (
    <div role="status">
      <p>
        <strong>{words.done}</strong>
      </p>
      <dl class="o-facts">
        <dt>{words.seal}</dt>
        <dd class="o-hex">{grouped(dossier.seal_fingerprint)}</dd>
        <dt>{words.sha}</dt>
        <dd class="o-hex">{grouped(dossier.sha256)}</dd>
        <dt>{words.size}</dt>
        <dd>{bytes(dossier.bytes)}</dd>
      </dl>
      <p class="o-note">{words.check}</p>
      <div class="o-keys">
        <a class="key key-main" href={reportUrl(dossier.dossier)} target="_blank" rel="noreferrer">
          <span>{words.report}</span>
        </a>
        <a class="key key-plain" href={dossierUrl(dossier.dossier)} download="">
          <span>{words.download}</span>
        </a>
      </div>
    </div>
  )
}
