// Words of suppliers' sheets: what the shop's own materials say, and the form that adds one.
import { lengthName } from './en_length.ts'
import { capital, count, date, numberWord, plural, scaled } from './format.ts'

const FIGURES: { readonly [name: string]: string } = {
  open_time: 'Open time',
  open_time_at: 'Open time holds at',
  mixer_gel_time: 'Mixer gels after',
  handling_time: 'Handling cure',
  full_cure: 'Full cure',
  cure_at: 'Cure times hold at',
  activation_energy: 'Activation energy',
  minimum_cure: 'Cures from',
  blob_hardness_min: 'Blob’s hardness at least',
  bondline_min: 'Bondline at least',
  bondline_max: 'Bondline at most',
  cartridge: 'Cartridge holds',
  left_in_mixer: 'Left in a mixer',
  shear_modulus: 'Shear modulus',
  grip_from: 'Grip from',
  grip_to: 'Grip to',
  hole_min: 'Hole at least',
  hole_max: 'Hole at most',
  diameter: 'Diameter',
  holes_per_bit: 'Holes for one bit',
  expansion: 'Expansion',
  modulus: 'Modulus of elasticity',
  temperature_max: 'Temperature at most',
}
const UNITS: { readonly [unit: string]: string } = { C: '°C', '1e-6/K': '10⁻⁶/K' }

const unitName = (unit: string): string => UNITS[unit] ?? unit

type Figure = {
  readonly value: number
  readonly low: number
  readonly high: number
  readonly unit: string
  readonly decimals: number
}

export const sheetWords = {
  title: 'From suppliers’ sheets',
  intro:
    'Steps on the card reckon with the newest sheet of a material where the method gives a figure of the sheet. The vehicle maker’s instruction comes first: enter no figure that goes beyond it.',
  empty: 'No sheet is entered yet.',
  emptyNext: 'Until one is, the card reckons with the figures that the method gives.',
  add: 'Add a sheet',
  added: (name: string) => `${name} is added. Phones take it with their next contact.`,
  addKey: 'Add',
  group: 'What it is',
  material: 'Material',
  materialNote: 'As the methods name it: the sheet counts where a step asks for it.',
  materialOwn: 'An id of your own: a to z, 0 to 9, _ and -',
  noMaterial: 'choose the material',
  name: 'Product',
  about: 'In short',
  sheet: 'Name of the sheet',
  revision: 'Revision',
  dated: 'Date of the sheet',
  datedNote: 'As printed. Left empty where it bears none.',
  figures: 'Figures',
  figuresNote:
    'Only what the sheet prints, with a point: 3.25. Its range where it gives one. Leave the rest empty.',
  own: 'Another figure',
  ownAdd: 'Add another figure',
  ownName: 'Name',
  unit: 'Unit',
  value: 'Value',
  low: 'From',
  high: 'To',
  range: (least: number, most: number, unit: string) =>
    `Between ${count(least)} and ${count(most)} ${unitName(unit)}`,
  unitName,
  figureName: (name: string) => FIGURES[name] ?? capital(name.replaceAll('_', ' ')),
  need: {
    material: 'Choose the material first.',
    name: 'Type the product first.',
    sheet: 'Type the name of the sheet first.',
    revision: 'Type the revision first.',
  },
  faults: (n: number) =>
    `${capital(numberWord(n))} ${plural(n, 'figure', 'figures')} cannot be taken. Nothing is lost: mend and add again.`,
  line: (sheet: string, revision: string, dated: string) =>
    `${sheet}, revision ${revision}${dated === '' ? '' : `, ${date(Date.parse(dated))}`}`,
  standing: ({ in_use, withdrawn_ms }: { readonly in_use: boolean; readonly withdrawn_ms: number }) =>
    withdrawn_ms > 0 ? 'withdrawn' : in_use ? 'in use' : 'replaced by a newer one',
  entered: (when: string, who: string) => `Entered ${when}${who === '' ? '' : `, ${who}`}`,
  figure: ({ value, low, high, unit, decimals }: Figure) =>
    low === high
      ? `${scaled(value, decimals)} ${unitName(unit)}`
      : `${scaled(value, decimals)} ${unitName(unit)}, between ${scaled(low, decimals)} and ${scaled(high, decimals)}`,
  jobs: 'Jobs that used the material',
  noJobs: 'No job has recorded a lot of it yet.',
  jobLots: (lots: readonly string[]) => `${plural(lots.length, 'lot', 'lots')} ${lots.join(', ')}`,
  jobResults: (n: number) =>
    n === 0
      ? 'no result rests on this revision'
      : `${numberWord(n)} ${plural(n, 'result rests', 'results rest')} on this revision`,
  filed: 'filed',
}

type Row = {
  readonly length: number
  readonly low: number
  readonly high: number
  readonly part?: string
}

export const rowWords = {
  title: 'Lengths, in mm',
  note: 'A row for each length that the sheet prints, the shortest first. A rivet with one range is one row. The card takes the length whose row holds the whole measured grip.',
  length: 'Length',
  low: 'Grip from',
  high: 'Grip to',
  part: 'Supplier’s number',
  label: (part: string, row: number) => `${part}, row ${row}`,
  add: 'Add a length',
  row: ({ length, low, high, part = '' }: Row, decimals: number) => {
    const mm = (value: number) => scaled(value, decimals)
    return `${lengthName(length, decimals, 'mm')}${part === '' ? '' : `, ${part}`}: grips of ${mm(low)} to ${mm(high)} mm`
  },
}

export const withdrawWords = {
  key: 'Withdraw',
  label: (name: string, revision: string) => `Withdraw ${name}, revision ${revision}`,
  sure: 'From then on the card reckons with the revision before it, or with the method’s own figures. It stays here with what rests on it, and its revision can be entered anew.',
  why: 'What is wrong with it',
  needWhy: 'Say what is wrong with it first.',
  done: (name: string) => `${name} is withdrawn. Phones hear of it with their next contact.`,
  withdrawn: (when: string, who: string, why: string) =>
    `Withdrawn ${when}${who === '' ? '' : `, ${who}`}: ${why}`,
}
