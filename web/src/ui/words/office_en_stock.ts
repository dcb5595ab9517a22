// Words of the shop's pages: instruments, lots, materials.
import { capital, numberWord, plural } from './format.ts'

export const shopPages = {
  name: 'Shop',
  instruments: 'Instruments',
  lots: 'Lots',
  materials: 'Materials',
  api: 'API',
}

export const instruments = {
  title: 'Instruments',
  empty: 'No instrument is entered yet.',
  emptyNext: 'Enter what steps ask for by number: torque tools, measuring systems, loggers, testers, gauges.',
  add: 'Add an instrument',
  change: (number: string) => `Change ${number}`,
  number: 'Number',
  kind: 'Kind',
  kindNote: 'In the shop’s own word: torque tool, body measuring system, data logger',
  until: 'Calibrated until',
  untilNote: 'The last good day. Left empty where nobody knows it.',
  note: 'Note',
  gone: 'Out of use',
  goneNote: 'It stays readable in the jobs that name it.',
  key: 'Save',
  addKey: 'Add',
  needNumber: 'Type the number first.',
  needKind: 'Type the kind first.',
  saved: (number: string) => `${number} is saved.`,
  due: (over: number, soon: number) =>
    over + soon === 0
      ? 'No calibration is due within 30 days.'
      : [
          over > 0
            ? `${capital(numberWord(over))} ${plural(over, 'calibration is', 'calibrations are')} overdue.`
            : '',
          soon > 0 ? `${capital(numberWord(soon))} ${plural(soon, 'is', 'are')} due within 30 days.` : '',
        ]
          .filter((part) => part !== '')
          .join(' '),
  standing: {
    soon: (days: number) => (days === 0 ? 'due today' : `due in ${days} ${plural(days, 'day', 'days')}`),
    over: (days: number) => `overdue for ${days} ${plural(days, 'day', 'days')}`,
    unknown: 'nobody knows until when',
  },
  act: 'Act',
  overdueTitle: 'Overdue instruments',
  overdueNote:
    'Overdue for calibration on the day that the step named them: look whether its values still stand.',
  overdueAt: (said: string, until: string) =>
    said.includes('calibrated until') ? said : `${said}, calibrated until ${until}`,
}

export const lots = {
  title: 'Lots',
  shelf: 'On the shelf',
  shelfNote: 'Phones offer these with their expiry where a step asks for the material.',
  shelfEmpty: 'No lot is entered yet.',
  shelfEmptyNext: 'Enter a delivery with the expiry on its label.',
  add: 'Add a lot',
  change: (lot: string) => `Change lot ${lot}`,
  material: 'Material',
  lot: 'Lot',
  expires: 'Expires',
  expiresNote: 'The last good day as printed. Left empty where none is.',
  note: 'Note',
  gone: 'Used up or thrown away',
  key: 'Save',
  addKey: 'Add',
  needLot: 'Type the lot as it is printed first.',
  needMaterial: 'Choose the material first.',
  noMaterial: 'choose the material',
  saved: (lot: string) => `Lot ${lot} is saved.`,
  standing: {
    soon: (days: number) =>
      days === 0 ? 'expires today' : `expires in ${days} ${plural(days, 'day', 'days')}`,
    over: () => 'expired',
    unknown: 'none printed',
  },
  used: 'Used in jobs',
  usedNote:
    'Every lot that a step recorded, in open and filed jobs. For a recall, search the lot: struck records are shown as struck, for the tube may have been opened.',
  search: 'Search lot or material',
  usedEmpty: 'No job has recorded a lot yet.',
  usedNone: 'No job has recorded such a lot.',
  found: (rows: number, jobs: number) =>
    `${rows} ${plural(rows, 'record', 'records')} in ${jobs} ${plural(jobs, 'job', 'jobs')}`,
  most: 'The newest 1 000 are shown; search for older ones.',
  job: 'Job',
  step: 'Step',
  when: 'Recorded',
  by: 'By',
  state: { stands: '', struck: 'struck', aside: 'set aside' } as { readonly [state: string]: string },
  atOnce: 'expired when recorded',
  filed: 'filed',
  act: 'Act',
}

const GROUPS: { readonly [group: string]: string } = {
  materials: 'Materials',
  adhesives: 'Adhesives and sealants',
  rivets: 'Rivets',
  bits: 'Drill bits',
}

type Figure = { readonly value: number; readonly low: number; readonly high: number; readonly unit: string }

export const materials = {
  title: 'Materials',
  intro:
    'What the computations know, with the range of each figure and where it is from. No product and no maker: the vehicle maker’s instruction and the supplier’s sheet come first.',
  toLots: 'Which jobs used a lot',
  group: (group: string) => GROUPS[group] ?? group,
  revision: (revision: string) => `revision ${revision}, as shipped; read-only`,
  values: 'Figures',
  limits: 'Limits: what happens above, no leave to go there',
  grips: 'Lengths by grip',
  grip: (length: number, low: number, high: number) => `${length} mm long: grip ${low} to ${high} mm`,
  fact: (name: string) => capital(name.replaceAll('_', ' ')),
  figure: ({ value, low, high, unit }: Figure) =>
    low === high ? `${value} ${unit}` : `${value} ${unit}, between ${low} and ${high}`,
  applies: (said: string) => `at ${said}`,
  source: (said: string) => `Source: ${said}`,
}
