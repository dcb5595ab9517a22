// A small invented job for the office's tests: a method of two stages, and entries made as devices make them.
import { NO_PREV, seal } from '../../src/core/digest.ts'
import type { Draft, Entry } from '../../src/core/entries.ts'
import type { MethodDoc, StepDoc } from '../../src/core/method.ts'
import { EMPTY_LOG, type JobLog, type LoggedEntry, withEntries } from '../../src/core/views/office_log.ts'

export const JOB = '11111111-0000-4000-8000-000000000001'
export const MARA = '22222222-0000-4000-8000-000000000001'
export const PIM = '22222222-0000-4000-8000-000000000002'
export const ADA = '22222222-0000-4000-8000-000000000003'
export const PHONE_MARA = '33333333-0000-4000-8000-000000000001'
export const PHONE_PIM = '33333333-0000-4000-8000-000000000002'
export const SERVER = '33333333-0000-4000-8000-000000000009'
const NIL = '00000000-0000-0000-0000-000000000000'
export const DIGEST = 'd'.repeat(64)
export const NOON = Date.UTC(2026, 10, 25, 12, 0, 0)
export const MINUTE = 60_000

const PLAIN: StepDoc = {
  id: '',
  title: '',
  instruction: '',
  caution: '',
  tools: [],
  who: ['technician'],
  people: 1,
  needs: [],
  hold: false,
  hold_countersign: '',
  meanwhile: [],
  sets: [],
  clears: [],
  asks: [],
}
const step = (id: string, title: string, rest: Partial<StepDoc> = {}): StepDoc => ({
  ...PLAIN,
  id,
  title,
  ...rest,
})

export const METHOD: MethodDoc = {
  form: 1,
  id: 'bracket',
  title: 'Take off a bracket',
  revision: '3',
  invented: true,
  conditions: [{ id: 'dead', name: 'Locked and dead', asked_each_morning: true, set_by: 'step' }],
  groups: [{ id: 'header', name: 'Header', positions: ['H1', 'H2', 'H3'] }],
  zones: [
    {
      id: 'upper',
      name: 'Upper zone',
      pads: [
        { id: 'U1', name: 'Pad 1' },
        { id: 'U2', name: 'Pad 2' },
      ],
      sensors: [
        { id: 'a', name: 'Sensor a' },
        { id: 'b', name: 'Sensor b' },
      ],
    },
  ],
  materials: [{ id: 'cleaner', name: 'Cleaner' }],
  drawings: {},
  stages: [
    {
      id: 'start',
      title: 'Receiving',
      steps: [
        step('lock', 'Lock the vehicle dead', {
          caution: 'High voltage. Only a trained person.',
          sets: ['dead'],
          asks: [
            {
              id: 'sign',
              kind: 'countersign',
              name: 'Dead, seen',
              of: 'second_person',
              other_device: false,
              at_the_car: true,
            },
          ],
        }),
        step('measure', 'Measure the gap', {
          instruction: 'Measure at the upper corner.',
          tools: ['gap gauge'],
          needs: ['lock'],
          hold: true,
          asks: [
            {
              id: 'gap',
              kind: 'reading',
              name: 'Gap',
              unit: 'mm',
              decimals: 1,
              min: 35,
              max: 55,
              points: [],
            },
            { id: 'before', kind: 'photo', name: 'Gap with gauge', show: 'gauge in the gap', deadline: '' },
          ],
        }),
      ],
    },
    {
      id: 'heat',
      title: 'Rivets and heat',
      steps: [
        step('drill', 'Drill the rivets', {
          asks: [{ id: 'out', kind: 'tally', name: 'Rivets out', group: 'header', to: 'shank_out' }],
        }),
        step('warm', 'Warm the joint', {
          needs: ['measure'],
          asks: [
            {
              id: 'run',
              kind: 'heat_run',
              name: 'Upper zone',
              zone: 'upper',
              purpose: 'removal',
              settings: {
                sensors_unit: 'C',
                decimals: 0,
                lagging_min: 120,
                leading_max: 200,
                soak_s: 90,
                gap_max_s: 60,
                ramp_s: 60,
                release: ['U1', 'U2'],
                cold_below: 40,
              },
            },
            {
              id: 'pads',
              kind: 'photo',
              name: 'Pads on',
              show: 'both pads, from the left',
              deadline: 'drill',
            },
          ],
        }),
      ],
    },
  ],
}

export const REF = { method: 'bracket', digest: DIGEST }

export type Made = Draft & {
  readonly by?: string
  readonly device?: string
  readonly as?: readonly string[]
  readonly at?: number
  readonly received?: number
  readonly offset?: number
}

const ROLE_OF: { readonly [person: string]: readonly string[] } = {
  [MARA]: ['technician'],
  [PIM]: ['photographer'],
  [ADA]: ['office'],
}
const DEVICE_OF: { readonly [person: string]: string } = {
  [MARA]: PHONE_MARA,
  [PIM]: PHONE_PIM,
  [ADA]: SERVER,
  [NIL]: SERVER,
}

/** Entries chained per device, one a minute from noon on unless `at` says another. */
export function logOf(made: readonly Made[]): JobLog {
  const chains = new Map<string, Entry>()
  const items = made.map((one, index): LoggedEntry => {
    const { by = MARA, at = NOON + index * MINUTE, received, offset, ...rest } = one
    const device = rest.device ?? DEVICE_OF[by] ?? PHONE_MARA
    const before = chains.get(device)
    const entry = seal({ kind: rest.kind, body: rest.body } as Draft, {
      v: 1,
      job: JOB,
      device,
      seq: (before?.seq ?? 0) + 1,
      by,
      auth: 'own',
      as: rest.as ?? ROLE_OF[by] ?? [],
      at_ms: at,
      mono_ms: index,
      load: '44444444-0000-4000-8000-000000000001',
      prev: before?.hash ?? NO_PREV,
    }).entry
    chains.set(device, entry)
    return {
      entry,
      received_ms: received ?? at + 1000,
      ...(offset === undefined ? {} : { offset_ms: offset }),
    }
  })
  return withEntries({ ...EMPTY_LOG, job: JOB, methods: { [DIGEST]: METHOD } }, items)
}

export const OPENED: readonly Made[] = [
  {
    kind: 'open',
    by: ADA,
    body: {
      order: '214',
      vin: 'DEM0BAYL9EAF00214',
      vehicle: 'Invented saloon',
      part: 'Bracket',
      side: 'left',
      invented: true,
      over: [],
    },
  },
  { kind: 'pin', by: ADA, body: { methods: [DIGEST], over: [] } },
  { kind: 'assign', by: ADA, body: { person: MARA, on: true, over: [] } },
]

export const hashAt = (log: JobLog, index: number): string => log.items.at(index)?.entry.hash ?? ''
