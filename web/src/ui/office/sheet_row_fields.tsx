// The lengths of a rivet in a sheet's form: a row each, with the fault at its field.
import type { JSX } from 'preact'
import type { TypedRow } from '../../office_api/sheets.ts'
import { rowWords as words } from '../words/office_en_sheets.ts'
import { Small } from './sheet_fields.tsx'

const PARTS = ['length', 'low', 'high', 'part'] as const
type Part = (typeof PARTS)[number]

export const NO_ROW: TypedRow = { length: '', low: '', high: '', part: '' }

export function isRow(row: TypedRow): boolean {
  return PARTS.some((part) => row[part] !== '')
}

export function RowFields(props: {
  rows: readonly TypedRow[]
  /** What is wrong at a part of a row that was handed in; empty where nothing is. */
  faultAt: (row: number, part: Part) => string
  onType: (rows: readonly TypedRow[]) => void
}): JSX.Element {
  const { rows, faultAt, onType } = props
  return (
    <fieldset class="o-figure">
      <legend>{words.title}</legend>
      <p class="o-note">{words.note}</p>
      {rows.map((row, place) => (
        <div key={place} class="o-figure-row">
          {PARTS.map((part) => (
            <Small
              key={part}
              name={words[part]}
              label={words.label(words[part], place + 1)}
              value={row[part]}
              fault={faultAt(rows.slice(0, place).filter(isRow).length, part)}
              onType={(typed) =>
                onType(rows.map((one, at) => (at === place ? { ...one, [part]: typed } : one)))
              }
              numeric={part !== 'part'}
            />
          ))}
        </div>
      ))}
      <button type="button" class="key key-plain" onClick={() => onType([...rows, NO_ROW])}>
        <span>{words.add}</span>
      </button>
    </fieldset>
  )
}
