// A heat run of the demo's upper zone with its plan pinned: readings as the plan's family would have them, or not.
import seed from '../../../seed_data/plans/upper.json?raw'
import type { ResponseDoc } from '../../src/core/live/response_set.ts'
import { curveAt, curveOf } from '../../src/core/live/response_set.ts'
import type { PlanRow } from '../../src/store/types.ts'
import { type FakePhone, JOB } from './fake_phone.ts'
import { heatPhone, readAt, type Values } from './played_heat.ts'

/** The shipped plan's response set, as a phone unpacks it. */
const packed = atob((JSON.parse(seed) as { response: string }).response)
const bytes = Uint8Array.from(packed, (character) => character.charCodeAt(0))
const text = await new Response(
  new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip')),
).text()

export const SET = JSON.parse(text) as ResponseDoc
const SHA = '5e'.repeat(32)

export type PlanHere = 'here' | 'not_here' | 'newer' | 'none'

/** `newer`: of a form that this app does not read. */
export function plannedPhone(
  is: PlanHere = 'here',
  drawings: Readonly<Record<string, string>> = {},
): FakePhone {
  const row: PlanRow = {
    ...{ job: JOB, method: 'removal', zone: 'upper', plan: SET.digest, sha256: SHA },
    ...{ bytes: text.length, name: SET.name, sentence: SET.answer.sentence, here: is !== 'not_here' },
  }
  const kept = is === 'newer' ? text.replace('"form":2', '"form":3') : text
  return heatPhone({ drawings, plans: is === 'none' ? [] : [row], planSets: { [SHA]: kept } })
}

/** What is so in a run: a member of the family by its place in it, and what goes wrong from a minute on. */
export type Truth = {
  readonly row: number
  readonly column: number
  readonly lifted?: readonly [pad: string, from_min: number]
  readonly off?: readonly [sensor: string, from_min: number]
  /** Kelvin more than the member, a minute. */
  readonly steeper?: number
}

/** Nominal contact and loss. */
export const AS_PLANNED: Truth = { row: 2, column: 2 }

/** Noise of a degree that is the same each time. */
const NOISE = [0.6, -0.9, 0.3, 1.1, -0.4, -1.2, 0.8] as const

export function valuesAt(minute: number, truth: Truth): Values {
  const member = SET.members[truth.row]?.[truth.column]
  const clock_s = Float64Array.from(SET.clock_s)
  const read = SET.sensors.map((sensor, column) => {
    const T_C = curveAt(clock_s, curveOf(member?.s[column] ?? []), minute * 60)
    const wrong = T_C + (truth.steeper ?? 0) * minute - fallK(truth, column, minute)
    const isOff = truth.off?.[0] === sensor && minute >= truth.off[1]
    const noise = NOISE[(minute + 3 * column) % NOISE.length] ?? 0
    return [sensor, Math.round((isOff ? 24 : wrong) + noise)] as const
  })
  return Object.fromEntries(read)
}

/** How far the sensor has fallen behind since that pad lifted. */
function fallK({ lifted: [pad, from_min] = ['', 0] }: Truth, column: number, minute: number): number {
  const drops = SET.lifting.find((one) => one.pad === pad)?.drops[column]
  if (drops === undefined || minute <= from_min) return 0
  const clock_s = Float64Array.from(drops, (_, k) => k * 60)
  return curveAt(clock_s, curveOf(drops), (minute - from_min) * 60)
}

export async function readLike(
  fake: FakePhone,
  run: string,
  truth: Truth,
  until_min: number,
  from_min = 2,
): Promise<void> {
  for (let minute = from_min; minute <= until_min; minute += 2)
    await readAt(fake, run, minute, valuesAt(minute, truth))
}
