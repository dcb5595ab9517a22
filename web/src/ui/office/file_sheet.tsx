// Filing: what is missing, the written reason, the seal while it is made, and the dossier.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { dossierUrl } from '../../office_api/client.ts'
import type { Dossier } from '../../office_api/rows.ts'
import { bytes, grouped } from '../words/format.ts'
import { o } from '../words/office_en.ts'
import { Form, TextField } from './forms.tsx'
import { LackList, PhonesHolding } from './job_lacks.tsx'
import type { SheetProps } from './job_sheets.tsx'
import { useOffice } from './office_desk.ts'
import { useAct } from './use_act.ts'

const words = o.job.file

export function FileSheet({ job, onDone, refresh }: SheetProps & { refresh: () => void }): JSX.Element {
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
    void act.run(
      (stop) => desk.api.file(job.log.job, reason.trim(), stop),
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
      submit={incomplete ? words.keyIncomplete : words.key}
      tone={incomplete ? 'stop' : 'main'}
      working={`${words.working}. ${words.workingNote}`}
      stoppable
      onSubmit={submit}
      onCancel={onDone}
    >
      {job.lacks.length === 0 ? <p>{words.complete}</p> : <p>{words.incomplete(job.lacks.length)}</p>}
      <LackList lacks={job.lacks} />
      <PhonesHolding job={job} />
      <p>{words.note}</p>
      {incomplete && <p>{words.needs}</p>}
      {incomplete && <TextField name={words.reason} value={reason} onType={setReason} />}
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
        <a class="key key-main" href={dossierUrl(dossier.dossier)} download="">
          <span>{words.download}</span>
        </a>
      </div>
    </div>
  )
}
