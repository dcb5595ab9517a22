// A wrong sheet is withdrawn with a reason; from then on nothing is reckoned from it.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { SheetRow } from '../../office_api/sheets.ts'
import { withdrawWords as words } from '../words/office_en_sheets.ts'
import { Form, TextField } from './forms.tsx'
import { useOffice } from './office_desk.ts'
import { useAct } from './use_act.ts'

type Props = { row: SheetRow; onDone: () => void }

export function SheetWithdraw({ row, onDone }: Props): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const [asks, setAsks] = useState(false)
  const [why, setWhy] = useState('')
  if (!asks) {
    return (
      <p>
        <button
          type="button"
          class="key key-plain"
          aria-label={words.label(row.name, row.revision)}
          onClick={() => setAsks(true)}
        >
          <span>{words.key}</span>
        </button>
      </p>
    )
  }
  const submit = (): void => {
    const said = why.trim()
    if (said === '') act.lack(words.needWhy)
    else void act.run(() => desk.api.withdrawSheet(row.id, said), onDone)
  }
  return (
    <Form
      act={act}
      label={words.label(row.name, row.revision)}
      submit={words.key}
      tone="stop"
      onSubmit={submit}
      onCancel={() => setAsks(false)}
    >
      <p>{words.sure}</p>
      <TextField name={words.why} value={why} onType={setWhy} max={400} />
    </Form>
  )
}
