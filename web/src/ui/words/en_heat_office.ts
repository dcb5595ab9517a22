// Words of the office's heat pages: zones, editor, plan, pins.

import { capital, count, numberWord, plural } from './format.ts'

export const SPACE = '\u00a0'

/** A figure of a plan; `never` stays a word. */
export function amount({ value, unit, decimals }: Amount): string {
  if (value === 'never') return 'never'
  if (!Number.isFinite(value)) return 'not known'
  const digits = value.toFixed(decimals).replace('-', '\u2212')
  return unit === '' ? digits : `${digits}${SPACE}${unit === 'C' ? '°C' : unit}`
}
type Amount = { readonly value: number | 'never'; readonly unit: string; readonly decimals: number }

/** Both ends with one unit: 9 to 14 min. */
export function span(from: Amount, to: Amount): string {
  const bare = from.value === 'never' ? 'never' : amount({ ...from, unit: '' })
  return `${bare} to ${amount(to)}`
}

export const mm = (value: number): string => `${Number(value.toFixed(1))}${SPACE}mm`
export const degrees = (tenths: number): string => amount({ value: tenths / 10, unit: 'C', decimals: 0 })
export const minutes = (value: number): string =>
  amount({ value, unit: 'min', decimals: value % 1 === 0 ? 0 : 1 })

export const heat = {
  title: 'Heat zones',
  intro:
    'One zone is one stretch of joint, heated and separated in one go. A plan says what it will do before the pads are switched on.',
  first: 'The vehicle maker’s instructions and the adhesive’s data sheet come first.',
  invented: 'Invented for the demo. No vehicle has it.',
  inventedShort: 'invented',
  all: 'All heat zones',
  back: 'Back to the zone and its plan',
  empty: 'No heat zone is here yet.',
  emptyNext: 'Begin one, or bring in a zone document.',
  begin: 'Begin a zone',
  zone: 'Zone',
  plan: 'Plan',
  added: 'Added',
  pinned: 'Pinned to',
  noJobs: 'no job',
  job: (order: string) => `job ${order}`,
  filedJob: (job: string) => `a filed job (${job})`,
  open: (name: string) => `Heat zone ${name}`,
  by: (when: string, who: string) => (who === '' ? when : `${when}, ${who}`),
}

export const bringIn = {
  title: 'Bring in a zone document',
  file: 'Zone document (YAML or JSON)',
  note: 'Checked before it is kept. What is here once stays as it is; a change makes another zone.',
  checking: 'Checking the document.',
  notRead: 'This file cannot be read. Choose it again.',
  faults: (n: number) => `${capital(numberWord(n))} ${plural(n, 'fault', 'faults')}. Nothing was kept.`,
  line: (n: number) => `line ${count(n)}`,
}

export const removing = {
  key: 'Remove this zone',
  sure: 'It goes with its plan. A zone that a job uses or has used stays.',
  yes: 'Remove it',
  no: 'Keep it',
}

export const planning = {
  title: 'Plan',
  none: 'Not planned yet.',
  noneNext: 'A plan takes some seconds. You may leave the page meanwhile.',
  key: 'Plan it',
  again: 'Plan it again',
  waiting: 'Waiting for its turn. One zone is planned at a time.',
  runs: 'Being planned.',
  running: (doing: string, share: number) =>
    `${capital(doingWords[doing] ?? 'planning')}: ${Math.round(share * 10)} of 10 parts done.`,
  progress: 'Progress of the plan',
  cancel: 'Cancel the plan',
  cancelled: 'The plan was cancelled. The zone is kept.',
  failed: 'The plan failed.',
  failedNext:
    'The zone is kept. Plan it again; if it fails again, tell whoever runs the server what stands here.',
  older: 'An earlier model of this program planned it. Plan it again to have the present one’s figures.',
  remarks: (n: number) =>
    `${capital(numberWord(n))} ${plural(n, 'remark', 'remarks')} on what the document leaves out`,
  mend: 'One change that mends it:',
  noMend: 'No single change that was tried mends it.',
  troubles: 'What breaks a limit',
  change: 'Change a copy',
}

const doingWords: { readonly [doing: string]: string } = {
  heating: 'heating the joint',
  release: 'finding the release',
  run: 'running heat and release through',
  family: 'curves for other contact and loss',
  answers: 'putting the answers together',
}

export const pins = {
  title: 'Heat plans',
  none: 'No heat plan is pinned. The phone then counts the method’s times.',
  pin: 'Pin to a job',
  pinTitle: 'Pin this plan to a job',
  pinNote: 'The phones of the job get the plan and forecast its heat run from their readings.',
  change: 'Pin a plan',
  changeFor: (zone: string) => `Pin a plan for ${zone}`,
  unpin: 'Unpin',
  unpinOf: (zone: string) => `Unpin the plan of ${zone}`,
  job: 'Job',
  zone: 'Zone of its method',
  which: 'Planned zone',
  noPlans: 'No zone is planned yet.',
  toZones: 'To the heat zones',
  noJobs: 'No job with a heat zone is open.',
  key: 'Pin it',
  done: (zone: string) => `Pinned to ${zone}.`,
  open: 'Open the plan',
  choose: 'Choose a job and its zone first.',
  choosePlan: 'Choose a planned zone first.',
}
