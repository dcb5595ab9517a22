// The figures of a sheet's form: value and range of each, with the fault at its field.
import type { JSX } from 'preact'
import { useId } from 'preact/hooks'
import type { KnownFigure, TypedFigure } from '../../office_api/sheets.ts'
import { capital } from '../words/format.ts'
import { sheetWords as words } from '../words/office_en_sheets.ts'

const PARTS = ['value', 'low', 'high'] as const
type Part = (typeof PARTS)[number]
/** What is wrong at a figure's part; empty where nothing is. */
export type FaultAt = (name: string, part: Part | 'unit') => string

export function FigureFields(props: {
  known: KnownFigure
  typed: TypedFigure
  faultAt: FaultAt
  onType: (typed: TypedFigure) => void
}): JSX.Element {
  const { known, typed, faultAt, onType } = props
  const name = words.figureName(known.name)
  return (
    <fieldset class="o-figure">
      <legend>
        {name}, {words.unitName(known.unit)}
      </legend>
      <Parts name={name} typed={typed} faultAt={faultAt} onType={onType} />
      <p class="o-note">{words.range(known.least, known.most, known.unit)}</p>
    </fieldset>
  )
}

/** A figure that no computation takes: kept and shown, in the sheet's own words. */
export function OwnFigureFields(props: {
  typed: TypedFigure
  faultAt: FaultAt
  onType: (typed: TypedFigure) => void
}): JSX.Element {
  const { typed, faultAt, onType } = props
  return (
    <fieldset class="o-figure">
      <legend>{words.own}</legend>
      <div class="o-figure-row">
        <Small
          name={words.ownName}
          value={typed.name.replaceAll('_', ' ')}
          fault=""
          onType={(name) => onType({ ...typed, name: idOf(name) })}
        />
        <Small
          name={words.unit}
          value={typed.unit}
          fault={faultAt(typed.name, 'unit')}
          onType={(unit) => onType({ ...typed, unit })}
        />
      </div>
      <Parts name={words.own} typed={typed} faultAt={faultAt} onType={onType} />
    </fieldset>
  )
}

function Parts(props: {
  name: string
  typed: TypedFigure
  faultAt: FaultAt
  onType: (typed: TypedFigure) => void
}): JSX.Element {
  const { name, typed, faultAt, onType } = props
  return (
    <div class="o-figure-row">
      {PARTS.map((part) => (
        <Small
          key={part}
          name={words[part]}
          label={`${words[part]}: ${name}`}
          value={typed[part]}
          fault={faultAt(typed.name, part)}
          onType={(value) => onType({ ...typed, [part]: value.trim() })}
          numeric
        />
      ))}
    </div>
  )
}

/** A short field: its name above, its fault under it. */
export function Small(props: {
  name: string
  label?: string
  value: string
  fault: string
  onType: (value: string) => void
  numeric?: boolean
}): JSX.Element {
  const id = useId()
  return (
    <div class="o-field">
      <label for={id}>{props.name}</label>
      <input
        id={id}
        type="text"
        inputMode={props.numeric ? 'decimal' : 'text'}
        autocomplete="off"
        maxLength={20}
        value={props.value}
        aria-label={props.label}
        aria-invalid={props.fault === '' ? undefined : 'true'}
        aria-describedby={props.fault === '' ? undefined : `${id}-fault`}
        onInput={(event) => props.onType(event.currentTarget.value)}
      />
      {props.fault !== '' && (
        <p id={`${id}-fault`} class="o-note in-stop">
          {capital(props.fault)}
        </p>
      )}
    </div>
  )
}

/** The words that somebody typed, as an id. */
export function idOf(name: string): string {
  return name
    .toLowerCase()
    .replaceAll(/[^a-z0-9_-]+/g, '_')
    .slice(0, 64)
}
