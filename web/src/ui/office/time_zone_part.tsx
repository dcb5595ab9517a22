// In which time zone reports and dossiers say their times; entries hold UTC whatever stands here.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import { timeZoneWords as words } from '../words/office_en_time_zone.ts'
import { Field, Form } from './forms.tsx'
import { useOffice, useRoute } from './office_desk.ts'
import { SeenPage } from './page_parts.tsx'
import { useAct } from './use_act.ts'

const UTC = 'UTC'

export function TimeZonePart(): JSX.Element {
  const { desk } = useOffice()
  const { seen, refresh } = useRoute(desk.api.timeZone, 0, 'time zone')
  return (
    <section class="o-part" aria-label={words.title}>
      <h2>{words.title}</h2>
      <SeenPage seen={seen} refresh={refresh}>
        {({ time_zone }) => <Zone key={time_zone} zone={time_zone} onSaved={refresh} />}
      </SeenPage>
    </section>
  )
}

function Zone({ zone, onSaved }: { zone: string; onSaved: () => void }): JSX.Element {
  const { desk } = useOffice()
  const [typed, type] = useState(zone)
  const act = useAct()
  const here = Intl.DateTimeFormat().resolvedOptions().timeZone
  return (
    <>
      <p role="status">{zone === '' ? words.none : words.set(zone)}</p>
      <Form
        act={act}
        submit={words.save}
        onSubmit={() => void act.run(() => desk.api.setTimeZone(typed.trim()), onSaved)}
      >
        <Field
          name={words.field}
          value={typed}
          onType={type}
          note={words.note}
          offers={Intl.supportedValuesOf('timeZone')}
        />
        {typed === '' && here !== UTC && (
          <button type="button" class="o-link" onClick={() => type(here)}>
            {words.take(here)}
          </button>
        )}
      </Form>
    </>
  )
}
