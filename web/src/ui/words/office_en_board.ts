// Words of the board and of opening a job.
import type { Headline, Wait } from '../../core/views/office_board.ts'
import { common } from './en_common.ts'
import { capital, duration, firstName, listed, numberWord, plural, wholeMinutes } from './format.ts'

const jobs = (n: number): string => `${numberWord(n)} open ${plural(n, 'job', 'jobs')}`

/** One run is told with its time; of several, only how many. */
function runWords({ runs }: Headline, now_ms: number): string {
  const [first] = runs
  if (first === undefined) return 'no heat run'
  if (runs.length > 1) return `${numberWord(runs.length)} heat runs`
  return now_ms === 0
    ? 'one heat run'
    : `one heat run, on for ${duration(wholeMinutes(now_ms - first.on_ms))}`
}

function sentences(head: Headline, now_ms = 0): string {
  const parts = [
    jobs(head.open),
    runWords(head, now_ms),
    head.held === 0 ? 'none held' : `${numberWord(head.held)} held`,
    ...(head.toFile > 0 ? [`${numberWord(head.toFile)} to be filed`] : []),
    ...(head.setAside > 0 ? [`${numberWord(head.setAside)} with records set aside`] : []),
  ]
  return parts.map((part) => `${capital(part)}.`).join(' ')
}

const heldWords = (records: number, photos: number): readonly string[] =>
  [
    records > 0 ? `${records} ${plural(records, 'record', 'records')}` : '',
    photos > 0 ? `${photos} ${plural(photos, 'photo', 'photos')}` : '',
  ].filter((word) => word !== '')

/** Whose countersign: a role or a qualification, as a name that signs. */
const NAMES: { readonly [id: string]: string } = {
  second_person: 'the name of a second technician',
  office: 'the office’s name',
}
export const nameOfWhom = (demand: string): string =>
  NAMES[demand] ?? `the name of ${common.roles[demand] ?? `somebody with ${demand.replaceAll('_', ' ')}`}`

export const board = {
  title: 'Board',
  headline: sentences,
  empty: 'No job is open.',
  emptyNext: 'Open one: the order number and the vehicle are enough to begin.',
  open: 'Open a job',
  job: 'Job',
  part: 'Part and method',
  stage: 'Stage',
  waits: 'Waits for',
  heat: 'Heat, cure',
  heard: 'Last heard',
  record: 'Record',
  noMethod: 'no method pinned',
  method: (title: string, revision: string) => `${title}, revision ${revision}`,
  progress: (done: number, total: number) => `${done} of ${total} steps done`,
  noSteps: 'no steps yet',
  allSteps: 'all steps done',
  noRun: 'none running',
  run: (zone: string, purpose: string) => `${zone}, ${purpose}`,
  runOn: (length: string) => `on for ${length}`,
  runMoment: (moment: string) => `last: ${moment}`,
  soak: (counted: string, wanted: string) => `soak ${counted} of ${wanted} at the last reading`,
  /** A person's only phone here needs no name of its own. */
  phone: (name: string, person: string, alone: boolean) => {
    if (person === '') return name
    return alone ? firstName(person) : `${firstName(person)}, ${name}`
  },
  ago: (length: string) => `${length} ago`,
  hours: (n: number) => `${n} h`,
  justNow: 'just now',
  never: 'never heard',
  holds: (records: number, photos: number) => `at least ${listed(heldWords(records, photos))} not here`,
  noPhones: 'no phone yet',
  deviations: (n: number) => (n === 0 ? 'no deviations' : `${n} ${plural(n, 'deviation', 'deviations')}`),
  instruments: (n: number) => `${n} ${plural(n, 'instrument', 'instruments')} overdue when used`,
  findings: (n: number) => (n === 0 ? 'no findings' : `${n} ${plural(n, 'finding', 'findings')}`),
  photosNotHere: (n: number) => `${n} ${plural(n, 'photo', 'photos')} not here`,
  refused: (n: number) => `${n} refused`,
  closed: 'closed',
  invented: 'invented',
  place: (place: string) => `At ${place}`,
  noPlace: 'no hoist or bay',
  runPart: { ramp: 'ramp', soak: 'soak', release: 'release', cool_down: 'cool-down' },
  runAborted: 'aborted, not cold yet',
  forecast: (zone: string, handling: string, full: string) =>
    `${zone}: clamps off about ${handling}, full cure about ${full}`,
  forecastAdvice: 'Forecast from the readings; below the data sheet.',
  late: 'Filed, with entries since',
  lateNote:
    'Their dossiers stay as they were sealed. An addendum holds everything and names the one before it.',
  lateJob: (n: number, at: string) =>
    `${n} ${plural(n, 'entry', 'entries')} came after filing, the first ${at}`,
  lateGo: (order: string) => `To job ${order} and its addendum`,
}

const WAITS: { readonly [C in Wait['code']]: string } = {
  held: 'Held',
  next: 'next step',
  free: 'Free meanwhile',
  photos_wanted: 'wanted',
  photos_not_here: 'not here yet',
  set_aside: 'set aside',
  method: 'a method to be pinned',
  assign: 'somebody to be assigned',
  close: 'the office, to close it',
  file: 'the office, to file it',
}

export const waits = {
  ...WAITS,
  moreHolds: (n: number) => `and ${n} more ${plural(n, 'hold point', 'hold points')} not passed`,
  heldFor: (asks: number, of: readonly string[]) => {
    const checks = asks === 0 ? [] : [`${asks} ${plural(asks, 'check', 'checks')} open`]
    const waits = [...checks, listed(of.map(nameOfWhom))].filter((word) => word !== '')
    return waits.length === 0 ? 'something outside its limits' : waits.join(', and ')
  },
}

export const openJob = {
  title: 'Open a job',
  order: 'Order number',
  vin: 'VIN',
  vinNote: 'As it is read from the body. It is never refused.',
  vehicle: 'Vehicle',
  part: 'Part',
  side: 'Side',
  sides: { left: 'Left', right: 'Right', none: 'No side' },
  place: 'Hoist or bay',
  methods: 'Methods, in the order of the work',
  noMethods: 'No method is here yet. Import one first, or pin it later.',
  people: 'People',
  noPeople: 'Nobody to assign yet. Add people first, or assign them later.',
  methodAt: (n: number) => `${n}.`,
  demo: 'Demo',
  invented: 'Invented: a job to practise on, no real vehicle',
  key: 'Open the job',
  needOrder: 'Type the order number first.',
  needPart: 'Name the part first.',
  optional: 'can be left empty',
}
