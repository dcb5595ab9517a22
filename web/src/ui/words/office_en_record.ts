// Words for what an entry says, for the time line, what is set aside, and the findings.
import type { What } from '../../core/views/office_what.ts'
import { findings, ladder, pieces } from './en_kinds.ts'

/** What a row needs beside the entry: figures, terms and people already in words. */
export type Filled = { subject: string; detail: string; figures: string; terms: string; people: string }

type Line = (f: Filled) => readonly [strong: string, rest: string]

const colon =
  (word: string): Line =>
  (f) => [`${word}: `, f.subject]
const detailAfter =
  (word: string): Line =>
  (f) => [word, f.detail === '' ? '' : `: ${f.detail}`]
const zone =
  (word: string): Line =>
  (f) => [word, tail(f.subject, f.detail)]

function tail(...words: readonly string[]): string {
  const there = words.filter((word) => word !== '')
  return there.length === 0 ? '' : `, ${there.join(', ')}`
}

const LINES: { readonly [key: string]: Line } = {
  tick_done: (f) => ['Done: ', `${f.subject}${tail(f.detail)}`],
  tick_not_applicable: (f) => ['Not applicable: ', `${f.subject}${tail(f.detail)}`],
  text: (f) => [f.detail, tail(f.subject)],
  choice: (f) => [f.detail, tail(f.subject)],
  reading: (f) => [f.figures, tail(f.subject)],
  run_reading: (f) => [`Sensor ${f.detail}: ${f.figures}`, tail(f.subject)],
  photo: colon('Photo'),
  photo_loose: (f) => ['Photo without a slot', tail(f.subject, f.detail)],
  tally: (f) => [`Position ${f.subject}: `, f.terms],
  mark_damaged_hole: (f) => ['Damaged hole', `, position ${f.subject}`],
  mark_lost: (f) => [`Lost inside: ${f.terms}`, `, position ${f.subject}`],
  mark_found: (f) => [`Found: ${f.terms}`, `, position ${f.subject}`],
  lot: (f) => [`Lot ${f.detail}`, tail(f.subject)],
  heat_on: (f) => ['Switched on', `, ${f.subject}, ${f.terms}, pads ${f.detail}`],
  heat_soaked: zone('Soaked'),
  heat_workable: zone('Workable'),
  heat_turn_down: (f) => [`Pad ${f.detail} turned down`, tail(f.subject)],
  heat_lift: (f) => [`Pad ${f.detail} lifted`, tail(f.subject)],
  heat_off: zone('Switched off'),
  heat_cold: zone('Cold'),
  heat_abort: (f) => ['Heat run aborted', tail(f.subject, f.detail)],
  heat_remark: (f) => ['Remark on the heat run', tail(f.subject, f.detail)],
  note: (f) => ['Note: ', `${f.detail}${f.subject === '' ? '' : ` (${f.subject})`}`],
  deviation: (f) => ['Deviation: ', `${f.detail}${f.subject === '' ? '' : ` (${f.subject})`}`],
  countersign: colon('Countersigned'),
  strike: (f) => ['Struck: ', `${f.subject}${tail(f.detail)}`],
  result_inside: (f) => ['Worked out, inside', tail(f.subject)],
  result_outside: (f) => ['Worked out, outside', tail(f.subject)],
  result_none: (f) => ['Worked out', tail(f.subject)],
  clock_stepped: (f) => ['Clock changed', ` by ${f.figures}`],
  clock_set_back: (f) => ['Clock set back', ` by ${f.figures}`],
  heard: (f) => ['Call heard', tail(f.terms, f.subject)],
  condition_holds: (f) => ['Looked at, holds: ', f.subject],
  condition_gone: (f) => ['Looked at, gone: ', f.subject],
  later: (f) => ['Put off: ', `${f.subject}${tail(f.detail)}`],
  open: (f) => [`Job ${f.detail} opened`, tail(f.subject)],
  assign_on: (f) => ['Assigned: ', f.people],
  assign_off: (f) => ['No longer assigned: ', f.people],
  place: (f) => ['Moved to ', f.detail],
  place_none: () => ['No hoist or bay', ''],
  pin: (f) => (f.detail === '' ? ['No method pinned', ''] : ['Pinned: ', f.detail]),
  close: detailAfter('Job closed'),
  reopen: detailAfter('Job opened again'),
  file: () => ['Filed, complete', ''],
  file_incomplete: detailAfter('Filed, incomplete'),
  aside: (f) => [`Set aside: ${f.figures}`, `, ${f.terms}`],
  admit: (f) => [`Admitted: ${f.figures}`, tail(f.detail)],
  accept: (f) => [`Accepted: ${f.terms}`, tail(f.detail)],
  send_back: (f) => ['Sent back: ', `${f.subject}${tail(f.detail)}`],
  unknown: (f) => ['Needs a newer program', `, kind ${f.detail}: kept, not shown`],
}

const MOMENTS: { readonly [id: string]: string } = {
  on: 'on',
  soaked: 'soaked',
  workable: 'workable',
  lifted: 'pads lifted',
  off: 'off',
  cold: 'cold',
  due: 'due',
}

const ASIDES: { readonly [code: string]: string } = {
  unsigned: 'no valid signature yet',
  foreign_job: 'a job that this device was not on',
  unknown_job: 'a job that the office does not know',
  revoked_device: 'the device is revoked',
  wrong_person: 'this person is not on that device',
  role: 'the role may not write this',
  not_yet_known: 'needs a newer server',
}

const PURPOSES: { readonly [id: string]: string } = { removal: 'removal', cure: 'cure' }

const TABLES: { readonly [prefix: string]: { readonly [id: string]: string } } = {
  state: ladder,
  piece: pieces,
  finding: findings,
  moment: MOMENTS,
  aside: ASIDES,
  purpose: PURPOSES,
}

/** `moment_soaked` to its word; an id that no table has stands for itself. */
function term(key: string): string {
  const at = key.indexOf('_')
  const id = key.slice(at + 1)
  return TABLES[key.slice(0, at)]?.[id] ?? id.replaceAll('_', ' ')
}

function line(view: What, filled: Filled): readonly [string, string] {
  return (LINES[view.key] ?? LINES.unknown ?? (() => [view.key, ''] as const))(filled)
}

export const what = {
  line,
  term,
  moment: (id: string) => MOMENTS[id] ?? id,
  aside: (code: string) => ASIDES[code] ?? code,
  purpose: (id: string) => PURPOSES[id] ?? id,
}
