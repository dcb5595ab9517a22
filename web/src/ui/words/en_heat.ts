// Words of heat runs wherever they are met: phases, acts, calls, what comes next. Fetched with the first run.
import { numberWord, plural } from './format.ts'

export const heatWords = {
  title: (zone: string) => `Heat run: ${zone}`,
  phase: {
    ramp: 'ramp',
    soak: 'soak',
    workable: 'workable, pads on',
    release: 'release',
    cooling: 'cool-down',
    over: 'run is over',
    aborted: 'aborted',
  },
  runningFor: (length: string) => `on for ${length}`,
  /** After a soak that was a cure nobody parts anything. */
  soakedPhase: 'soaked, pads on',
  comes: {
    soak: 'then the soak should begin',
    soaked: 'then: soaked',
    turn_down: (pad: string) => `then turn pad ${pad} down`,
    lift: (pad: string) => `then lift pad ${pad}`,
    read: 'then read the sensors again',
  },
  now: {
    soaked: 'Soaked',
    workable: 'Workable?',
    turn_down: (pad: string) => `Turn pad ${pad} down`,
    lift: (pad: string) => `Lift pad ${pad}`,
    press: (pad: string) => `Press pad ${pad} on again`,
    off: 'Switch off',
    cold: 'Wait until cold',
    read: 'Read the sensors',
  },
  thenDownTo: (pad: string, permille: number) =>
    permille === 0 ? `then turn pad ${pad} off` : `then turn pad ${pad} down to ${permille / 10}\u00a0%`,
  /** With the share that the plan leaves it: 'Turn pad U1 down to 75 %'; 0 is off. */
  downTo: (pad: string, permille: number) =>
    permille === 0 ? `Turn pad ${pad} off` : `Turn pad ${pad} down to ${permille / 10}\u00a0%`,
  toShare: (pad: string, permille: number) =>
    permille === 0 ? `Pad ${pad} off` : `Pad ${pad} to ${permille / 10}\u00a0%`,
  isDownTo: (pad: string, permille: number) =>
    permille === 0 ? `Pad ${pad} turned off` : `Pad ${pad} turned down to ${permille / 10}\u00a0%`,
  runCalls: (act: string) => `The run calls: ${act.slice(0, 1).toLowerCase()}${act.slice(1)}`,
  overdue: 'overdue',

  acts: {
    on: 'Switched on',
    soaked: 'Soaked',
    workable: 'Workable',
    turn_down: 'Turned down',
    lift: 'Lifted',
    off: 'Switched off',
    cold: 'Cold',
    abort: 'Aborted',
    remark: 'Remark',
  },
  padAct: {
    turn_down: (pad: string) => `Pad ${pad} turned down`,
    lift: (pad: string) => `Pad ${pad} lifted`,
  },
  enterReadings: 'Enter readings',
  /** In a zone made of others the zone's name stands before the letter. */
  sensorName: (id: string) => `sensor ${id.replace('_', ' ')}`,
  calls: {
    minutes: (n: number, act: string) => `${numberWord(n)} ${plural(n, 'minute', 'minutes')} until ${act}`,
    seconds: (n: number, act: string) => `${n} seconds until ${act}`,
    due: (act: string) => `Due now: ${act}`,
  },
}
