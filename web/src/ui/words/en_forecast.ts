// Words of a heat run's forecast and of its plan: when workable, what the readings look like, the release's steps.
import { plural } from './format.ts'

export const forecastWords = {
  head: 'Forecast',
  none: 'No heat plan is pinned to this zone: its times are the method’s.',
  notHere:
    'This zone’s plan is not on this phone yet. It comes with the next contact to the office; until then its times are the method’s.',
  newer:
    'This zone’s plan is of a newer form than this app reads: let the new version in. Its times are the method’s.',

  workableIn: (left: string, band: string) => `Workable in ${left} (${band})`,
  planned: (after: string, band: string) => `Planned: workable after ${after} (${band})`,
  /** The band in minutes, on one line: 9–14. */
  band: (from: string, until: string) => `${from}\u2060–\u2060${until}`,
  never: 'never',
  now: 'Workable now, by the forecast',
  nowProof: 'The soak at the sensors and your own try prove it.',
  notWorkable: 'Not workable under this plan',
  notWorkableDo:
    'Press every pad flush and keep draught off; if it stays so, ask the office for another plan.',
  around: (at: string, from: string, until: string) => `About ${at}, between ${from} and ${until}.`,
  aroundOpen: (at: string, from: string) => `About ${at}, not before ${from}.`,
  from: (n: number) =>
    n === 0
      ? 'No reading yet: this is the plan’s own band.'
      : `From ${n} ${plural(n, 'reading', 'readings')}.`,
  sincePressed: (at: string) => `Only readings since ${at} count, when a pad was pressed on again.`,
  padsOn: (until: string) => `By the plan pads stay on until about ${until}.`,
  window: (padsOn: string, until: string) =>
    `By the plan pads stay on until about ${padsOn}, and the whole zone workable until ${until}.`,
  powerGone: (at: string) =>
    `Power went at ${at}: from then on nothing is forecast. The soak counts as the method says.`,
  without: (sensor: string) => `Without ${sensor}:`,

  looks: {
    pad_lifting: {
      is: (pad: string) => `Pad ${pad} seems to lift`,
      what: 'Press it flush along its whole length and clamp it again; the next readings say whether it helped.',
    },
    sensor_off: {
      is: (sensor: string) => `Sensor ${sensor} seems to have come off`,
      what: 'Fasten it at the bond’s edge again, then record that. Until then the forecast leaves it out.',
    },
    draught: {
      is: () => 'It cools faster than planned: a draught?',
      what: 'Shut doors, turn fans away, cover the zone. Waiting alone will not make it workable.',
    },
    wrong_stack_up: {
      is: () => 'The readings fit no planned curve: wrong stack-up?',
      what: 'Compare pads, sensors and layers with the plan below. The forecast does not count; ask the office.',
    },
  },
  sensorFixed: (sensor: string) => `Sensor ${sensor} fastened again`,

  rests: 'What it rests on',
  fact: {
    plan: 'Plan',
    model: 'Model',
    answer: 'Planned',
    workable: 'Workable from',
    contact: 'Contact of the pads',
    loss: 'Heat loss',
    misfit: 'Misfit',
    peak: 'Peaks, planned',
    limits: 'Not feasible',
    mend: 'What would mend it',
    touch: 'Metal may be touched',
  },
  invented: (name: string) => `${name} (invented)`,
  zoneDigest: (digest: string) => `zone document ${digest}`,
  workableFrom: (limit: string) => `${limit} at the coldest place of the bond`,
  timesPlanned: (times: string) => `${times} of the planned, by the readings`,
  asPlanned: 'as planned: no reading yet',
  misfitBy: (by: string) => `${by} a reading`,
  peaks: (bond: string, metal: string) => `bond ${bond}, metal ${metal}`,
  touch: (length: string, after: string) => `for ${length}, ${after} after switch-on by the plan`,

  release: 'Release by the plan',
  stepsAll: (n: number) => `All ${n} steps`,
  stepDue: (at: string) => `at ${at}`,
  stepAfter: (length: string) => `${length} after the first`,
  stepFirst: 'once it is parted',
  stepDone: (at: string) => `done ${at}`,
  keeps: 'The waits keep the cooling within its limit: late is safe, early is not.',

  layout: 'As planned, in mm',
  layoutLabel: (width: number, height: number) =>
    `The zone as planned, ${width} by ${height} mm, seen from the heated side`,
  layoutKey: 'Seen from the heated side. Down triangle: coldest place. Up triangle: hottest.',
  fromCorner: (x: number, y: number) => `${x} from the left end, ${y} from the lower edge`,
  insidePad: (mm: number, pad: string) => `${mm} inside pad ${pad}`,
  besidePad: (mm: number, pad: string) => `${mm} beside pad ${pad}`,
  padAt: (w: number, h: number, x: number, y: number) =>
    `${w} x ${h}, its lower left corner ${x} from the left end, ${y} up`,
  place: {
    sensor: (id: string) => `Sensor ${id}`,
    pad: (id: string) => `Pad ${id}`,
    lagging: 'Coldest place',
    leading: 'Hottest place',
  },
  sensorAway: (sensor: string, mm: number) => `sensor ${sensor} is ${mm} away`,
  readsMore: (by: string) => `and reads ${by} more`,
  readsLess: (by: string) => `and reads ${by} less`,
  neighbour: (peak: string, limit: string) => `reaches ${peak}, at most ${limit}`,
  tooNear: (mm: number) => `too near by ${mm}: shield it or move it`,
}
