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
  comes: {
    soak: 'then the soak should begin',
    soaked: 'then: soaked',
    lift: (pad: string) => `then lift pad ${pad}`,
  },
  now: {
    soaked: 'Soaked',
    workable: 'Workable?',
    lift: (pad: string) => `Lift pad ${pad}`,
    off: 'Switch off',
    cold: 'Wait until cold',
  },
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
  sensorName: (id: string) => `sensor ${id}`,
  calls: {
    minutes: (n: number, act: string) => `${numberWord(n)} ${plural(n, 'minute', 'minutes')} until ${act}`,
    seconds: (n: number, act: string) => `${n} seconds until ${act}`,
    due: (act: string) => `Due now: ${act}`,
  },
}
