// Words of the office's heat pages: zones, editor, plan, pins.

import { NARROW_FIELDS } from './en_heat_office_fields.ts'
import { capital, count, glued, listed, numberWord, plural } from './format.ts'

const SPACE = '\u00a0'

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
  notFeasible: 'Not feasible',
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

const figureNames = {
  workable: 'Coldest place workable',
  soak: 'Soak',
  release: 'Release',
  window: 'Wedging, end to end',
  bond_peak: 'Hottest bondline',
  metal_peak: 'Hottest metal',
  ramp: 'Steepest rise',
  cooling: 'Steepest fall',
  touch: 'Metal safe to touch for 1 s',
  current: 'Current',
  energy: 'Energy',
} as const

export const figures = {
  title: 'Figures',
  name: (id: keyof typeof figureNames, purpose: string) =>
    id === 'workable' && purpose === 'cure' ? 'Coldest place at its minimum' : figureNames[id],
  from: { touch: (said: string) => `from ${said}`, other: (said: string) => said },
  band: (said: string) => `band ${said}`,
  limit: (said: string) => `limit ${said}`,
  over: 'over its limit',
  inputs: 'Inputs and band',
  inputsOf: (name: string) => `Inputs and band of: ${name}`,
  noBand: 'This figure has no band of its own.',
  bandOf: (contact: string, loss: string) =>
    `Band: contact ${contact} and loss ${loss} times what the zone says.`,
  model: (model: string) => `Model: ${model}.`,
  digest: 'Zone document',
  times: (low: number, high: number) => `${low} to ${high}`,
}

export const spots = {
  leading: 'Leads',
  lagging: 'Lags',
  place: (x: string, y: string, T: string) =>
    `${x} along, ${y} across: ${T} when the coldest place is workable.`,
  sensor: (id: string, away: string, more: number) =>
    `Sensor ${id} is ${away} away and reads ${Math.abs(Math.round(more))}${SPACE}K ${more < 0 ? 'less' : 'more'}.`,
  noSensor: 'No sensor is on this layer.',
}

export const picture = {
  title: 'Temperature over time',
  joint: 'The joint, to scale',
  heatedSide: 'Seen from the heated side. Lengths in mm from the zone’s lower left corner.',
  layer: 'Layer',
  time: 'Time after switch-on',
  play: 'Play',
  pause: 'Pause',
  at: (min: number) =>
    `${count(Math.floor(min))}${SPACE}min${min % 1 ? ` ${Math.round((min % 1) * 60)}${SPACE}s` : ''} after switch-on`,
  legend: (low: string, high: string) => `Colours from ${low} to ${high}, one scale for all layers and times`,
  label: (layer: string, at: string, low: string, high: string) => `${layer}, ${at}: from ${low} to ${high}`,
  range: (low: string, high: string, x: string, y: string) =>
    `From ${low} to ${high}; hottest at ${x} along, ${y} across.`,
  workable: (T: string, purpose: string) =>
    `Solid line: ${purpose === 'cure' ? 'minimum' : 'workable'}, ${T}`,
  limit: (T: string) => `Dashed line: the layer’s limit, ${T}`,
  sensors: 'Sensors now',
  loading: 'Asking the office for the picture.',
  signs: 'Signs',
  sign: {
    bond: 'sensor on the bondline',
    metal: 'sensor elsewhere',
    neighbour: 'neighbour with a limit',
    leads: 'hottest bondline',
    lags: 'coldest bondline',
  },
  lead: 'leads',
  lag: 'lags',
}

export const curves = {
  title: 'Curves and release',
  chart: 'The chart',
  label: 'Planned temperatures against time, with limits, and each pad’s share of its power',
  coldest: 'coldest bondline',
  hottest: 'hottest bondline',
  metal: 'hottest metal',
  sensors: 'sensors, lettered',
  band: 'coldest bondline over the band, pads left on',
  limits: { workable: 'workable', maximum: 'bond’s maximum', metal: 'metal’s limit' },
  minimum: 'minimum',
  releaseBegins: 'release begins',
  table: 'The same as a table',
  at: 'At',
}

export const tables = {
  layers: 'Layers',
  layer: 'Layer',
  peak: 'Peak',
  limit: 'Limit',
  where: 'Where and when',
  above: 'Minutes above',
  aboveLine: (limit: string, total: string, earlier: number) =>
    `${limit}: ${total}${earlier > 0 ? ` (${minutes(earlier)} of it in earlier runs)` : ''}`,
  at: (x: string, y: string, when: string) => `${x} along, ${y} across, after ${when}`,
  ageing: (share: string, stronger: string) =>
    `Ageing of aluminium, an estimate: ${share} of the time after which 6061 and 6063 T6 fell under their minimum strength; ${stronger} for stronger alloys.`,
  source: (said: string) => `Source: ${said}.`,
  neighbours: 'Neighbours',
  neighbour: 'Neighbour',
  hotSide: 'hot side of the band',
  passes: 'passes',
  fails: 'over its limit',
  failsHot: 'over its limit on the hot side of the band',
  farther: (said: string) => `passes ${said} farther away`,
  nowhere: 'passes nowhere within 400 mm',
  release: 'Release, step by step',
  releaseLine: (when: string, acts: readonly string[]) => `${when}: ${listed(acts)}`,
  padAct: (pad: string, act: string) => `pad ${pad} ${act}`,
  down: (share: number) => `to ${Math.round(share * 100)}${SPACE}% of its power`,
  off: 'off',
  lift: 'lifted',
  noRelease: 'No release is planned: the joint does not get there.',
  window: 'Wedging window along the joint',
  touch: 'Metal safe to touch',
  touchLine: (layer: string, contact: string, threshold: string, from: string) =>
    `${layer}, contact of ${contact} (below ${threshold}): from ${from}`,
  kinds: {
    loom: 'loom',
    seal: 'seal',
    foam: 'foam',
    paint_edge: 'paint edge',
    gas_generator: 'gas generator',
    fuel_line: 'fuel line',
    brake_line: 'brake line',
    still_bonded: 'still-bonded stretch',
    other: 'other',
  } as { readonly [kind: string]: string },
}

export const editing = {
  title: (name: string) => `Change a copy of ${name}`,
  newTitle: 'Begin a zone',
  untitled: 'the zone',
  note: 'A zone that is here stays as it is. What you change is kept as another zone, under a digest of its own.',
  newNote:
    'Every figure that stands here is of the usual size for its kind, and of no vehicle. Replace each by the vehicle’s and the data sheet’s own.',
  keep: 'Keep',
  keepAndPlan: 'Keep and plan',
  keeping: 'Checking and keeping',
  undo: 'Undo',
  jointHelp: `Drag a pad, sensor or neighbour, or go to its key and press the arrow keys: 1${SPACE}mm, with Shift 10${SPACE}mm.`,
  section: 'Section',
  sectionAt: (x: string) => `Cut at ${x} along`,
  sectionNote: (times: number) => `Heated side on top. Thickness is drawn ${times} times as large as length.`,
  sectionHollow: 'How deep the hollow profile is stands in the document; it is not drawn to scale.',
  sectionPlace: 'Where the section is cut',
  sectionEmpty: 'Nothing lies here.',
  faults: (n: number) => `${capital(numberWord(n))} ${plural(n, 'fault', 'faults')}: nothing was kept.`,
  toFault: (field: string) => `To ${field}`,
  parts: {
    zone: 'Zone',
    bondline: 'Bondline and limits',
    layers: 'Layers, from the heated side inward',
    pads: 'Pads',
    sensors: 'Sensors',
    neighbours: 'Neighbours',
    around: 'Losses, edges, supply, band',
  },
  add: { pads: 'Add a pad', sensors: 'Add a sensor', neighbours: 'Add a neighbour', layers: 'Add a layer' },
  remove: (what: string) => `Remove ${what}`,
  thing: {
    pads: (id: string) => `Pad ${id}`,
    sensors: (id: string) => `Sensor ${id}`,
    neighbours: (name: string) => `Neighbour ${name}`,
    layers: (name: string) => `Layer ${name}`,
  },
  things: 'What can be moved',
  moves: (what: string, where: string) => `${what}, ${where}. Arrow keys move it.`,
  boxAt: (x0: string, x1: string, y0: string, y1: string) => `${x0} to ${x1} along, ${y0} to ${y1} across`,
  pointAt: (x: string, y: string) => `${x} along, ${y} across`,
  onPad: (pad: string, from: string) => `on pad ${pad}, ${from} from its edge`,
  besidePad: (pad: string, away: string) => `${away} beside pad ${pad}`,
  kept: (keys: readonly string[]) => `Also in this document, and kept as it is: ${listed(keys)}.`,
  bondlineLayer: 'the bondline',
  choose: 'choose',
}

export const fieldWords = {
  name: (key: string): string => NARROW_FIELDS[key]?.[0] ?? key,
  unit: (key: string): string => NARROW_FIELDS[key]?.[1] ?? '',
  note: (key: string): string => NARROW_FIELDS[key]?.[2] ?? '',
  places: {
    box_mm: ['from x', 'from y', 'to x', 'to y'],
    covers_mm: ['from x', 'from y', 'to x', 'to y'],
    at_mm: ['x', 'y'],
    size_mm: ['along', 'across'],
    contact_factor: ['low', 'high'],
    loss_factor: ['low', 'high'],
  } as { readonly [key: string]: readonly string[] },
  choice: (choice: string): string => choiceWords[choice] ?? choice,
  said: (said: string) => glued(said),
}

const choiceWords: { readonly [choice: string]: string } = {
  removal: 'removal',
  cure: 'cure',
  metal: 'metal',
  adhesive: 'adhesive',
  composite: 'composite',
  ...tables.kinds,
}

export const pins = {
  title: 'Heat plans',
  none: 'No heat plan is pinned. The phone then counts the method’s times.',
  noZones: 'The methods of this job name no heat zone.',
  pinned: (zone: string, name: string) => `${zone}: ${name}`,
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
