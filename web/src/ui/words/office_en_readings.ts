// Words of the office's part for a run's readings: files of loggers, keys of loggers, the verdict.
import { count, plural } from './format.ts'

const n = (amount: number, one: string, many: string): string =>
  `${count(amount)} ${plural(amount, one, many)}`

export const readingWords = {
  verdict: 'Against its limits, by the entries',
  soFar: (overall: string) => `So far: ${overall}`,
  limit: (limit: string) => `limit ${limit}`,
  pending: 'not over yet',
  earlier: (amount: number) =>
    `Minutes of the metal with those of ${n(amount, 'earlier run', 'earlier runs')} of this job.`,
  model: (model: string) => `Model ${model}.`,
  aborted: 'It was aborted.',

  loggers: 'Loggers',
  files: 'Files read in',
  file: (readings: number, logger: string, day: string) =>
    `${n(readings, 'reading', 'readings')}, ${logger}, ${day}`,
  notRead: (day: string) => `handed in ${day}, not read in yet`,
  unreadOf: (amount: number) => `${n(amount, 'row or cell', 'rows or cells')} could not be read`,
  save: (name: string) => `Save the file ${name}`,
  goOn: (name: string) => `Go on with ${name}`,
  add: 'Add readings from a file',
  addTitle: 'Readings from a logger’s file',
  pick: 'File of the logger, CSV',
  limits:
    'CSV as the logger’s program exports it, at most 8 MB. It is kept as it is and goes into the dossier.',
  handing: 'Handing the file in',
  tooLarge: 'This file has over 8 MB. Split it by time.',

  logger: 'Name of the logger',
  loggerNote: 'Its columns are remembered under this name.',
  remembered: 'Columns as they were said for this logger last time.',
  guessed: 'Columns as they look; put right what is wrong.',
  columns: 'What each column is',
  column: (number: number, heading: string) =>
    heading === '' ? `Column ${number}` : `Column ${number}: ${heading}`,
  unused: 'not used',
  time: 'time',
  date: 'day',
  sensor: (id: string, name: string) =>
    name === '' || name === id ? `sensor ${id}` : `sensor ${id}: ${name}`,
  line: 'Line',
  form: 'The time column is',
  forms: { clock: 'a clock', minutes: 'minutes', seconds: 'seconds' },
  unit: 'Its figures are in',
  units: { C: '°C', F: '°F', K: 'K' },
  decimal: 'Decimals after',
  decimals: { '.': 'a point', ',': 'a comma' },
  separator: 'Between the columns',
  separators: { ';': 'semicolon', '\t': 'tab', ',': 'comma', '|': 'bar' },
  order: 'Days are written',
  orders: { ymd: 'year, month, day', dmy: 'day, month, year', mdy: 'month, day, year' },
  atOn: 'What the logger showed at switch-on',
  atOnNote: (at: string) =>
    `Switched on ${at} by the office’s clock. If the logger’s clock was off, write what it showed then.`,

  preview: 'What would be read',
  asking: 'Looking at the file',
  needsTime: 'Say what the logger showed at switch-on.',
  needsSensor: 'Say of one column at least which sensor it is.',
  needsLogger: 'Name the logger.',
  would: (readings: number, rows: number) =>
    `${n(readings, 'reading', 'readings')} in ${n(rows, 'row', 'rows')}`,
  span: (from: string, until: string) => `from ${from} to ${until} after switch-on`,
  known: (amount: number) => `${n(amount, 'reading', 'readings')} are here already and are not taken again.`,
  beforeOn: (amount: number) => `${n(amount, 'row', 'rows')} before switch-on are left out.`,
  blank: (amount: number) => `${n(amount, 'empty cell', 'empty cells')} left out.`,
  noWhole: 'At no moment are all sensors of the bond read together: no soak can be counted from this file.',
  range: (low: string, high: string) => `${low} to ${high}`,
  none: 'none',
  unread: (amount: number) => `${n(amount, 'row or cell', 'rows or cells')} that cannot be read`,
  unreadNote: 'They stay in the file, which is kept. Everything else is taken.',
  unreadMore: (amount: number) => `and ${count(amount)} more`,
  whole: 'whole row',
  where: 'Where',
  found: 'Found',
  reason: 'Why not',

  take: (amount: number) =>
    amount === 0 ? 'Nothing new to record' : `Record ${n(amount, 'reading', 'readings')}`,
  taking: (rows: number, all: number) => `${count(rows)} of ${n(all, 'row', 'rows')} read in`,
  progress: 'Rows read in',
  stopped: 'Stopped. What was read in stays; the same file goes on where it stopped.',
  done: (taken: number, known: number) =>
    known === 0
      ? `${n(taken, 'reading', 'readings')} recorded.`
      : `${n(taken, 'reading', 'readings')} recorded, ${count(known)} were here already.`,

  keys: 'Loggers that write by themselves',
  keyLine: (readings: number, made: string, heard: string) =>
    heard === ''
      ? `made ${made}, never heard`
      : `${n(readings, 'reading', 'readings')}, last heard ${heard}, made ${made}`,
  keyEnded: (at: string) => `ended ${at}`,
  letIn: 'Let a logger write',
  letInTitle: 'Let a logger write into this run',
  letInNote:
    'It gets a key for this run alone. What it sends is recorded in your name, and a note says so. End the key when the run is cold.',
  letInKey: 'Make the key',
  shown: 'This key is shown once. Give it to the logger now.',
  how: 'It sends rows to',
  header: 'with the header',
  body: 'as JSON such as',
  bodyNote:
    'clock_ms is the logger’s clock when it sends, so that its times are put right; run_s instead of at_ms counts from switch-on. At most 600 rows, every 10 s.',
  end: (logger: string) => `End the key of ${logger}`,
  endKey: 'End the key',
  endSure: (logger: string) => `${logger} writes no more. What it wrote stays.`,
  keep: 'Keep it',
}
