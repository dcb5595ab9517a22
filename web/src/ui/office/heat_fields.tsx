// Fields of a zone document: each member with its unit, and its faults beside it.
import type { JSX, TargetedEvent } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { Json } from '../../core/canonical.ts'
import { at, type Path, pathName, typedInto } from '../../core/views/office_heat_document.ts'
import {
  type FieldGroup,
  faultsAt,
  memberText,
  typedMember,
  type ZoneFault,
  type ZoneField,
} from '../../core/views/office_heat_fields.ts'
import { editing, fieldWords as words } from '../words/en_heat_form.ts'

type GroupsProps = {
  document: Json
  groups: readonly FieldGroup[]
  faults: readonly ZoneFault[]
  onType: (document: Json, tag: string) => void
}

export function HeatFields({ document, groups, faults, onType }: GroupsProps): JSX.Element {
  return (
    <div class="hz-fields">
      {groups.map((group) => (
        <Group key={pathName(group.path)} {...{ document, group, faults, onType }} />
      ))}
    </div>
  )
}

/** The id by which a fault finds its field. */
export const fieldId = (path: Path): string => `zone-${pathName(path)}`

/** From the member that a fault names outward: the last that is a field is where the fault is mended. */
export function fieldIdOf(field: string): readonly string[] {
  const inner = field.match(/^(.*)(?:\[\d+\]|\.\w+)$/)?.[1]
  return [`zone-${field}`, `zone-${field}-group`, ...(inner ? fieldIdOf(inner) : [])]
}

type GroupProps = Omit<GroupsProps, 'groups'> & { group: FieldGroup }

function Group({ document, group, faults, onType }: GroupProps): JSX.Element {
  const mine = faultsAt(faults, group.path)
  const saidId = useId()
  const unit = words.unit(group.key)
  const name = `${words.name(group.key)}${unit === '' ? '' : ` (${unit})`}`
  const said = [words.note(group.key), ...mine.map((fault) => fault.mend)].filter(Boolean)
  const input = (field: ZoneField, place: string) => (
    <Input
      key={pathName(field.path)}
      {...{ document, field, onType }}
      id={fieldId(field.path)}
      label={group.fields.length > 1 ? `${name}, ${place}` : name}
      short={group.fields.length > 1 ? place : name}
      faulty={mine.length > 0}
      said={said.length > 0 ? saidId : undefined}
    />
  )
  const places = words.places[group.key] ?? []
  return (
    <div
      class={group.fields.length > 1 ? 'hz-group is-wide' : 'hz-group'}
      id={`${fieldId(group.path)}-group`}
    >
      {group.fields.length > 1 && <p class="hz-group-name">{name}</p>}
      <div class="hz-inputs">{group.fields.map((field, number) => input(field, places[number] ?? ''))}</div>
      {said.length > 0 && (
        <p id={saidId} class={mine.length > 0 ? 'o-note in-stop' : 'o-note'}>
          {said.join('. ')}
        </p>
      )}
    </div>
  )
}

type InputProps = {
  document: Json
  field: ZoneField
  id: string
  label: string
  short: string
  faulty: boolean
  said: string | undefined
  onType: (document: Json, tag: string) => void
}

function Input(props: InputProps): JSX.Element {
  const { document, field, id, label, short, faulty, said, onType } = props
  const value = at(document, field.path)
  const set = (next: Json | undefined): void =>
    onType(typedInto(document, field.path, next), `type ${pathName(field.path)}`)
  const shared = { id, 'aria-invalid': faulty, 'aria-describedby': said, 'aria-label': label }
  if (field.kind === 'switch') {
    return (
      <label class="o-option">
        <input
          {...shared}
          type="checkbox"
          checked={value === true}
          onChange={() => set(value === true ? undefined : true)}
        />
        <span>{short}</span>
      </label>
    )
  }
  return (
    <div class="o-field">
      <label for={id}>{short}</label>
      {field.kind === 'choice' ? (
        <Choice field={field} value={String(value ?? '')} onChoose={set} shared={shared} />
      ) : (
        <Typed field={field} value={value} onType={set} shared={shared} />
      )}
    </div>
  )
}

type Shared = {
  id: string
  'aria-invalid': boolean
  'aria-describedby': string | undefined
  'aria-label': string
}
type ChoiceProps = {
  field: ZoneField
  value: string
  onChoose: (next: Json | undefined) => void
  shared: Shared
}

function Choice({ field, value, onChoose, shared }: ChoiceProps): JSX.Element {
  const known = field.choices ?? []
  // What stands in the document is offered too, though it may be no choice: its fault says so.
  const options = known.includes(value) ? known : [value, ...known]
  return (
    <select
      {...shared}
      value={value}
      onChange={(event: TargetedEvent<HTMLSelectElement>) => onChoose(event.currentTarget.value || undefined)}
    >
      {options.map((choice) => (
        <option key={choice} value={choice}>
          {choice === '' ? emptyWords(field) : words.choice(choice)}
        </option>
      ))}
    </select>
  )
}

const emptyWords = (field: ZoneField): string =>
  field.path[0] === 'sensors' ? editing.bondlineLayer : editing.choose

type TypedProps = {
  field: ZoneField
  value: Json | undefined
  onType: (next: Json | undefined) => void
  shared: Shared
}

/** What is typed stays as it is typed while it means the document's figure: 1. does not turn into 1 under the hand. */
function Typed({ field, value, onType, shared }: TypedProps): JSX.Element {
  const [typed, setTyped] = useState<string>()
  const kept =
    typed !== undefined &&
    memberText(field.kind, typedMember(field.kind, typed)) === memberText(field.kind, value)
  return (
    <input
      {...shared}
      type="text"
      inputMode={field.kind === 'number' ? 'decimal' : 'text'}
      autocomplete="off"
      maxLength={200}
      value={kept ? typed : memberText(field.kind, value)}
      onInput={(event: TargetedEvent<HTMLInputElement>) => {
        const next = event.currentTarget.value
        setTyped(next)
        onType(typedMember(field.kind, next))
      }}
    />
  )
}
