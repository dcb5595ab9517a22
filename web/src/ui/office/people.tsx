// People: add, and change names, roles, qualifications, PIN and office password.
import type { JSX } from 'preact'
import { useState } from 'preact/hooks'
import type { PersonRow } from '../../office_api/rows.ts'
import { Mark } from '../parts/mark.tsx'
import { w } from '../words/en.ts'
import { o } from '../words/office_en.ts'
import { Field, Form, Options } from './forms.tsx'
import { useOffice } from './office_desk.ts'
import { Empty } from './page_parts.tsx'
import { changeOf, lackOf, type Typed } from './person_change.ts'
import { RegisterPage } from './register_page.tsx'
import { useAct } from './use_act.ts'

const words = o.people
const ROLES = ['technician', 'photographer', 'office'] as const
const NEW: PersonRow = {
  person: '',
  name: '',
  roles: [],
  qualifications: [],
  has_pin: false,
  has_password: false,
}

export function PeopleScreen(): JSX.Element {
  const { shop, refreshShop } = useOffice()
  return (
    <RegisterPage
      words={words}
      fresh={NEW}
      nameOf={(person) => person.name}
      refresh={refreshShop}
      form={(person, ends) => <PersonForm person={person} {...ends} />}
    >
      {(change) => (
        <>
          {shop.heard && shop.people.length === 0 && <Empty words={words.empty} next={words.emptyNext} />}
          {shop.people.length > 0 && <PeopleTable people={shop.people} onChange={change} />}
        </>
      )}
    </RegisterPage>
  )
}

type TableProps = { people: readonly PersonRow[]; onChange: (person: PersonRow) => void }

function PeopleTable({ people, onChange }: TableProps): JSX.Element {
  return (
    <table class="o-table" aria-label={words.title}>
      <thead>
        <tr>
          <th scope="col">{words.name}</th>
          <th scope="col">{words.roles}</th>
          <th scope="col">{words.qualifications}</th>
          <th scope="col">{words.pin}</th>
          <th scope="col">{words.password}</th>
          <th scope="col">{o.devices.act}</th>
        </tr>
      </thead>
      <tbody>
        {people.map((person) => (
          <tr key={person.person}>
            <th scope="row">
              <span class="o-line">
                <Mark name="person" />
                <span>{person.name}</span>
              </span>
            </th>
            <td data-name={words.roles}>
              {person.roles.map((role) => w.common.roles[role] ?? role).join(', ')}
            </td>
            <td data-name={words.qualifications}>
              {person.qualifications.map((one) => w.common.roles[one] ?? one).join(', ') || w.common.none}
            </td>
            <td data-name={words.pin}>{person.has_pin ? words.hasPin : words.noPin}</td>
            <td data-name={words.password}>{person.has_password ? words.hasPassword : words.noPassword}</td>
            <td>
              <button type="button" class="key key-plain" onClick={() => onChange(person)}>
                <span>{words.change(person.name)}</span>
              </button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

type FormProps = { person: PersonRow; onDone: (name: string) => void; onCancel: () => void }

function PersonForm({ person, onDone, onCancel }: FormProps): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const [typed, setTyped] = useState<Typed>({
    name: person.name,
    roles: person.roles,
    qualifications: person.qualifications.join(', '),
    pin: '',
    password: '',
  })
  const set = (change: Partial<Typed>): void => setTyped({ ...typed, ...change })
  const submit = (): void => {
    const lack = lackOf(typed)
    const change = changeOf(typed)
    const send = () =>
      person.person === '' ? desk.api.addPerson(change) : desk.api.changePerson(person.person, change)
    if (lack !== '') act.lack(lack)
    else void act.run<unknown>(send, () => onDone(typed.name.trim()))
  }
  return (
    <Form
      act={act}
      submit={person.person === '' ? words.addKey : words.key}
      onSubmit={submit}
      onCancel={onCancel}
    >
      <Field name={words.name} value={typed.name} onType={(name) => set({ name })} />
      <Options
        name={words.roles}
        options={ROLES.map((id) => ({ id, name: words.role[id], note: words.roleDoes[id] }))}
        chosen={typed.roles}
        onChange={(roles) => set({ roles })}
      />
      <Field
        name={words.qualifications}
        value={typed.qualifications}
        onType={(qualifications) => set({ qualifications })}
        note={words.qualificationsNote}
      />
      <Field
        name={words.pin}
        value={typed.pin}
        onType={(pin) => set({ pin })}
        note={words.pinNote}
        numeric
        max={8}
      />
      {typed.roles.includes('office') && (
        <Field
          name={words.password}
          type="password"
          autocomplete="new-password"
          value={typed.password}
          onType={(password) => set({ password })}
          note={words.passwordNote}
        />
      )}
    </Form>
  )
}
