// What each column of a logger's file is, beside its first lines, and how its figures are written.
import type { JSX } from 'preact'
import type { SensorView } from '../../core/views/office_runs.ts'
import { type Role, roleOf, sensorRole, withRole } from '../../core/views/reading_columns.ts'
import type { ColumnMap, LookedAt } from '../../office_api/readings.ts'
import { readingWords as words } from '../words/office_en_readings.ts'
import { ChoiceField } from './choice_field.tsx'

type Props = {
  looked: LookedAt
  mapping: ColumnMap
  sensors: readonly SensorView[]
  onChange: (mapping: ColumnMap) => void
}

export function ReadingsColumns({ looked, mapping, sensors, onChange }: Props): JSX.Element {
  const width = Math.max(looked.headings.length, ...looked.sample.map(({ cells }) => cells.length))
  const columns = Array.from({ length: width }, (_, column) => column)
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a part that scrolls has to be reached by keys
    <section class="o-columns-of" aria-label={words.columns} tabIndex={0}>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.line}</th>
            {columns.map((column) => (
              <th key={column} scope="col">
                <RoleOf
                  name={words.column(column + 1, looked.headings[column] ?? '')}
                  role={roleOf(mapping, column)}
                  sensors={sensors}
                  onPick={(role) => onChange(withRole(mapping, column, role))}
                />
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {looked.sample.map(({ line, cells }) => (
            <tr key={line}>
              <th scope="row" class="num">
                {line}
              </th>
              {columns.map((column) => (
                <td key={column} class={roleOf(mapping, column) === '' ? 'soft num' : 'num'}>
                  {cells[column] ?? ''}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

type RoleProps = { name: string; role: Role; sensors: readonly SensorView[]; onPick: (role: Role) => void }

function RoleOf({ name, role, sensors, onPick }: RoleProps): JSX.Element {
  const options: readonly { id: Role; name: string }[] = [
    { id: '', name: words.unused },
    { id: 'time', name: words.time },
    { id: 'date', name: words.date },
    ...sensors.map(({ id, name: at }) => ({ id: sensorRole(id), name: words.sensor(id, at) })),
  ]
  return <ChoiceField name={name} value={role} options={options} onPick={onPick} />
}

const optionsOf = <T extends string>(of: Readonly<Record<T, string>>) =>
  (Object.entries(of) as [T, string][]).map(([id, name]) => ({ id, name }))

type FormProps = Omit<Props, 'sensors'>

/** Whether the time, or the column of the day, is written with a day. */
function isDated({ sample }: LookedAt, { date, time }: ColumnMap): boolean {
  return sample.some(({ cells }) => /\d[-./]\d/.test(cells[date >= 0 ? date : time] ?? ''))
}

/** How the file is written; the order of days only where days stand in it. */
export function ReadingsForm({ looked, mapping, onChange }: FormProps): JSX.Element {
  const set = <K extends keyof ColumnMap>(name: K, value: ColumnMap[K]): void =>
    onChange({ ...mapping, [name]: value })
  return (
    <div class="o-reading-form">
      <ChoiceField
        name={words.form}
        value={mapping.time_form}
        options={optionsOf(words.forms)}
        onPick={(form) => set('time_form', form)}
      />
      <ChoiceField
        name={words.unit}
        value={mapping.unit}
        options={optionsOf(words.units)}
        onPick={(unit) => set('unit', unit)}
      />
      <ChoiceField
        name={words.decimal}
        value={mapping.decimal as '.' | ','}
        options={optionsOf(words.decimals)}
        onPick={(decimal) => set('decimal', decimal)}
      />
      <ChoiceField
        name={words.separator}
        value={mapping.separator as ';'}
        options={optionsOf(words.separators)}
        onPick={(separator) => set('separator', separator)}
      />
      {mapping.time_form === 'clock' && isDated(looked, mapping) && (
        <ChoiceField
          name={words.order}
          value={mapping.day_order}
          options={optionsOf(words.orders)}
          onPick={(order) => set('day_order', order)}
        />
      )}
    </div>
  )
}
