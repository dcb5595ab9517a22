/** What the columns of a logger's file are, as a person puts it right: each column one thing, each thing one column. */

export type Columns = {
  readonly time: number
  /** -1: no column of its own. */
  readonly date: number
  readonly sensors: readonly { readonly column: number; readonly sensor: string }[]
}
export type Role = 'time' | 'date' | '' | `sensor ${string}`

export const sensorRole = (sensor: string): Role => `sensor ${sensor}`

export function roleOf(columns: Columns, column: number): Role {
  if (column === columns.time) return 'time'
  if (column === columns.date) return 'date'
  const found = columns.sensors.find((one) => one.column === column)
  return found ? sensorRole(found.sensor) : ''
}

/** The columns with one of them told anew; what had this role before has none now. The time stays somewhere. */
export function withRole<C extends Columns>(columns: C, column: number, role: Role): C {
  const sensors = columns.sensors.filter((one) => one.column !== column && sensorRole(one.sensor) !== role)
  const date = columns.date === column ? -1 : columns.date
  if (role === 'time') return { ...columns, time: column, date, sensors }
  if (column === columns.time) return columns
  if (role === 'date') return { ...columns, date: column, sensors }
  if (role === '') return { ...columns, date, sensors }
  const named = [...sensors, { column, sensor: role.slice('sensor '.length) }]
  return { ...columns, date, sensors: named.sort((a, b) => a.column - b.column) }
}

const two = (part: number): string => String(part).padStart(2, '0')

/** The switch-on as the logger's column would have it if its clock were right; 0 for one that counts from there. */
export function proposedAtOn(form: 'clock' | 'minutes' | 'seconds', on_ms: number): string {
  if (form !== 'clock') return '0'
  const on = new Date(on_ms)
  return [on.getHours(), on.getMinutes(), on.getSeconds()].map(two).join(':')
}
