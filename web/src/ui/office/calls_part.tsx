// Calls to phones: the contact address that push services want, who is called, and what was refused.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { CallsNews, CallsRow } from '../../office_api/calls.ts'
import { calls as words } from '../words/office_en_calls.ts'
import { Field, Form } from './forms.tsx'
import { deviceName, useOffice, useRoute } from './office_desk.ts'
import { SeenPage } from './page_parts.tsx'
import { useAct } from './use_act.ts'

export function CallsPart(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.calls, 0, 'calls')
  return (
    <section class="o-part" aria-label={words.title}>
      <h2>{words.title}</h2>
      <p class="o-note">{words.intro}</p>
      <SeenPage seen={seen} refresh={refresh}>
        {(news) => (
          <>
            <Contact key={news.contact} news={news} onSaved={refresh} />
            <Called rows={news.devices} />
          </>
        )}
      </SeenPage>
    </section>
  )
}

function Contact({ news, onSaved }: { news: CallsNews; onSaved: () => void }): JSX.Element {
  const { desk } = useOffice()
  const [contact, type] = useState(news.contact)
  const act = useAct()
  return (
    <>
      <p role="status">
        <strong>{words.fault[news.contact_fault]}</strong>
      </p>
      <Form
        act={act}
        submit={words.save}
        onSubmit={() => void act.run(() => desk.api.setContact(contact.trim()), onSaved)}
      >
        <Field name={words.contact} value={contact} onType={type} note={words.contactNote} />
      </Form>
    </>
  )
}

function wantsWords({ runs, signs }: CallsRow): string {
  if (runs && signs) return words.both
  return runs ? words.runs : words.signs
}

function Called({ rows }: { rows: readonly CallsRow[] }): JSX.Element {
  const { shop } = useOffice()
  if (rows.length === 0) return <p class="soft">{words.none}</p>
  return (
    <table class="o-table" aria-label={words.title}>
      <thead>
        <tr>
          <th scope="col">{words.phone}</th>
          <th scope="col">{words.wants}</th>
          <th scope="col">{words.last}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.device}>
            <th scope="row">{deviceName(shop, row.device)}</th>
            <td data-name={words.wants}>{wantsWords(row)}</td>
            <td data-name={words.last}>{row.trouble || words.fine}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
