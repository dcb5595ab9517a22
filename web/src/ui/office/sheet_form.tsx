// The form that adds a supplier's sheet: whose it is, which revision, and its figures.
import type { JSX } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'
import type { NewSheet, SheetRows, TypedFigure, TypedRow } from '../../office_api/sheets.ts'
import { sheetWords as words } from '../words/office_en_sheets.ts'
import { materials as groupWords } from '../words/office_en_stock.ts'
import { ChoiceField } from './choice_field.tsx'
import { Field, Form } from './forms.tsx'
import { useOffice } from './office_desk.ts'
import { type FaultAt, FigureFields, idOf, OwnFigureFields } from './sheet_fields.tsx'
import { isRow, NO_ROW, RowFields } from './sheet_row_fields.tsx'
import { type Act, faultsOf, useAct } from './use_act.ts'
import { useMaterials } from './use_materials.ts'

type Props = {
  figures: SheetRows['figures']
  onDone: (name: string) => void
  onCancel: () => void
}
type Facts = Omit<NewSheet, 'values' | 'rows'>

const NEW: Facts = {
  group: 'adhesives',
  material: '',
  name: '',
  about: '',
  sheet: '',
  revision: '',
  dated: '',
}
const OWN: TypedFigure = { name: '', value: '', low: '', high: '', unit: '' }
/** Groups whose materials the methods name. */
const NAMED = ['adhesives', 'rivets']
/** The group whose sheets have rows of lengths: one range by itself is a row as well. */
const OF_LENGTHS = 'rivets'
/** Figures that the rows say. */
const IN_ROWS = ['grip_from', 'grip_to']

export function SheetForm({ figures, onDone, onCancel }: Props): JSX.Element {
  const { desk } = useOffice()
  const act = useAct()
  const [facts, setFacts] = useState(NEW)
  const [typed, setTyped] = useState<{ readonly [name: string]: TypedFigure }>({})
  const [own, setOwn] = useState<readonly TypedFigure[]>([])
  const [rows, setRows] = useState<readonly TypedRow[]>([NO_ROW])
  const hasRows = facts.group === OF_LENGTHS
  const set = (change: Partial<Facts>): void => setFacts({ ...facts, ...change })
  const known = (figures[facts.group] ?? []).filter(({ name }) => !IN_ROWS.includes(name))
  const faultAt = faultAtOf(act)
  const submit = (): void => {
    const lack = (['material', 'name', 'sheet', 'revision'] as const).find((one) => facts[one].trim() === '')
    if (lack !== undefined) act.lack(words.need[lack])
    else {
      const values = [...known.map(({ name }) => typed[name] ?? { ...OWN, name }), ...own].filter(isTyped)
      const said = { ...facts, name: facts.name.trim(), sheet: facts.sheet.trim(), values }
      void act.run(
        () =>
          desk.api.addSheet({ ...said, revision: facts.revision.trim(), rows: hasRows ? trimmed(rows) : [] }),
        () => onDone(said.name),
      )
    }
  }
  return (
    <Form act={act} submit={words.addKey} onSubmit={submit} onCancel={onCancel}>
      <Whose facts={facts} groups={Object.keys(figures)} onChange={set} />
      <Field name={words.name} value={facts.name} onType={(name) => set({ name })} max={100} />
      <Field name={words.about} value={facts.about} onType={(about) => set({ about })} />
      <Field name={words.sheet} value={facts.sheet} onType={(sheet) => set({ sheet })} max={100} />
      <Field
        name={words.revision}
        value={facts.revision}
        onType={(revision) => set({ revision })}
        max={100}
      />
      <Field
        name={words.dated}
        type="date"
        value={facts.dated}
        onType={(dated) => set({ dated })}
        note={words.datedNote}
      />
      <h3>{words.figures}</h3>
      <p class="o-note">{words.figuresNote}</p>
      {hasRows && (
        <RowFields
          rows={rows}
          faultAt={(row, part) => faultOf(act, `rows.${row}.${part}`)}
          onType={setRows}
        />
      )}
      {known.map((one) => (
        <FigureFields
          key={one.name}
          known={one}
          typed={typed[one.name] ?? { ...OWN, name: one.name }}
          faultAt={faultAt}
          onType={(figure) => setTyped({ ...typed, [one.name]: figure })}
        />
      ))}
      {own.map((one, place) => (
        <OwnFigureFields
          key={place}
          typed={one}
          faultAt={faultAt}
          onType={(figure) => setOwn(own.map((other, at) => (at === place ? figure : other)))}
        />
      ))}
      <button type="button" class="key key-plain" onClick={() => setOwn([...own, OWN])}>
        <span>{words.ownAdd}</span>
      </button>
      <Faults act={act} />
    </Form>
  )
}

function isTyped({ name, value, low, high }: TypedFigure): boolean {
  return name !== '' && [value, low, high].some((one) => one !== '')
}

/** Those that say something, as they are handed in. */
function trimmed(rows: readonly TypedRow[]): readonly TypedRow[] {
  return rows.filter(isRow).map(({ length, low, high, part }) => ({
    length: length.trim(),
    low: low.trim(),
    high: high.trim(),
    part: part.trim(),
  }))
}

function faultOf(act: Act, field: string): string {
  return faultsOf(act).find((one) => one.field === field)?.message ?? ''
}

function faultAtOf(act: Act): FaultAt {
  return (name, part) => faultOf(act, `values.${name}.${part}`)
}

const INVALID = '[aria-invalid="true"]'

/** Said once above the key; each fault stands at its field, and the first of them is gone to. */
function Faults({ act }: { act: Act }): JSX.Element {
  const faults = faultsOf(act)
  const [first] = faults
  const alert = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (first !== undefined) alert.current?.closest('form')?.querySelector<HTMLElement>(INVALID)?.focus()
  }, [first])
  return (
    <div role="alert" ref={alert}>
      {first && (
        <p class="in-stop">
          <strong>{first.field === 'values' ? first.message : words.faults(faults.length)}</strong>
        </p>
      )}
    </div>
  )
}

function Whose(props: {
  facts: Facts
  groups: readonly string[]
  onChange: (change: Partial<Facts>) => void
}): JSX.Element {
  const { facts, groups, onChange } = props
  const materials = useMaterials()
  return (
    <>
      <ChoiceField
        name={words.group}
        value={facts.group}
        options={groups.map((id) => ({ id, name: groupWords.group(id) }))}
        onPick={(group) => onChange({ group, material: '' })}
      />
      {NAMED.includes(facts.group) ? (
        <ChoiceField
          name={words.material}
          value={facts.material}
          options={[{ id: '', name: words.noMaterial }, ...materials]}
          note={words.materialNote}
          onPick={(material) => onChange({ material })}
        />
      ) : (
        <Field
          name={words.material}
          value={facts.material}
          note={words.materialOwn}
          onType={(material) => onChange({ material: idOf(material) })}
        />
      )}
    </>
  )
}
