// Words of the methods page: check and import, reading, differences, the guide.
import { capital, count, numberWord, plural } from './format.ts'

export const importing = {
  title: 'Check and import a method file',
  drop: 'Drop the method file (YAML) and its drawings (SVG) here, or choose them:',
  files: 'Method file and drawings',
  chosen: (files: readonly string[], drawings: number) =>
    `Chosen: ${[...files, ...(drawings > 0 ? [`${count(drawings)} ${plural(drawings, 'drawing', 'drawings')}`] : [])].join(', ')}`,
  oneFile: 'Choose one YAML file, with the SVG files that it names.',
  checking: 'Checking the file. Nothing is kept yet.',
  key: 'Import',
  importing: 'Importing',
  again: 'Check again',
  clean: (n: number) => `No faults. ${count(n)} ${plural(n, 'method', 'methods')} in this file:`,
  method: (title: string, revision: string, steps: number) =>
    `${title}, revision ${revision}: ${count(steps)} ${plural(steps, 'step', 'steps')}`,
  known: 'here already, byte for byte',
  isNew: 'new',
  allKnown: 'All of it is here already. An import changes nothing.',
  remarks: (n: number) => `${count(n)} ${plural(n, 'remark', 'remarks')}: no faults, but see them`,
  faults: (n: number) =>
    `${capital(numberWord(n))} ${plural(n, 'fault', 'faults')}. It cannot be imported until ${plural(n, 'it is', 'they are')} mended; nothing was kept.`,
  line: (n: number) => (n > 0 ? `line ${count(n)}` : 'whole file'),
  found: (said: string) => `Found ${said}.`,
  mend: (said: string) => `${capital(said)}.`,
  taken: (title: string, revision: string) => `${title}, revision ${revision}, is imported.`,
  guide: 'How a method is written',
}

export const reading = {
  differences: 'Differences',
  compareWith: 'Compared with',
  noOther: 'No other revision of this method is here to compare with.',
  nobody: 'choose a revision',
  jobs: 'Jobs that pin this revision',
  noJobs: 'No job pins it.',
  notNow: 'has been given another revision since',
  filed: 'filed',
  yaml: 'The file as it was imported (YAML)',
  drawings: 'Drawings',
  drawing: (name: string) => `Drawing: ${name}`,
  about: 'What it is about',
  vehicle: 'Vehicle',
  part: 'Part',
  after: 'Pinned after',
  groups: 'Rivets',
  zones: 'Heat zones',
  materials: 'Materials',
  conditions: 'Standing conditions',
  positions: (n: number) => `${count(n)} ${plural(n, 'position', 'positions')}`,
  pads: (n: number, sensors: number) =>
    `${count(n)} ${plural(n, 'pad', 'pads')}, ${count(sensors)} ${plural(sensors, 'sensor', 'sensors')}`,
  eachMorning: 'asked each morning',
  people: (n: number) => `${count(n)} people`,
  minutes: (n: number) => `${count(n)} min planned`,
  whereNeeded: 'read only where needed',
  holdBy: (who: string) => `A deviation past this hold needs the name of: ${who}.`,
  when: (choice: string, option: string) => `only if ${choice} is ${option}`,
  plausible: (low: string, high: string) => `plausible from ${low} to ${high}`,
  against: (what: string) => `compared with ${what}`,
  since: (what: string) => `counted from ${what}`,
  framing: (words: string) => `framing: ${words}`,
  of: (words: string) => `of ${words}`,
  atTheCar: 'at the car',
  otherDevice: 'on another phone',
  parts: (names: string) => `of the run: ${names}`,
  inputs: (names: string) => `from ${names}`,
  points: (names: string) => `at ${names}`,
  calibrated: 'an instrument of the register',
}

export const guide = {
  title: 'How a method is written',
  at: 'On this page',
}
