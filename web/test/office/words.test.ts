// What the time line says: every kind has its words, and they read as sentences of the shop.
import { describe, expect, test } from 'vitest'
import { type Draft, KINDS } from '../../src/core/entries.ts'
import { whatOf } from '../../src/core/views/office_what.ts'
import { ago } from '../../src/ui/office/ago.ts'
import { sayWhat } from '../../src/ui/office/say_what.ts'
import { ADA, DIGEST, hashAt, logOf, MARA, type Made, NOON, OPENED, PIM, REF } from './a_job.ts'

const SHOP = {
  people: [[MARA, 'Mara Ilves'] as const, [PIM, 'Pim Reed'] as const].map(([person, name]) => ({
    person,
    name,
    roles: [],
    qualifications: [],
    has_pin: false,
    has_password: false,
  })),
  devices: [],
  heard: true,
}

const ON: Draft<'heat'> = {
  kind: 'heat',
  body: {
    ...REF,
    step: 'warm',
    ask: 'run',
    act: 'on',
    zone: 'upper',
    purpose: 'removal',
    pads: ['U1', 'U2'],
    plan: '',
  },
}
const RUN = hashAt(logOf([ON]), 0)
const STEP = { ...REF, step: 'measure' }
const act = { run: RUN, run_ms: 1, run_doubt: false, typed_time: false }

const SAID: readonly (readonly [Draft, string])[] = [
  [
    {
      kind: 'open',
      body: { order: '214', vin: '', vehicle: '', part: 'Bracket', side: 'left', invented: true, over: [] },
    },
    'Job 214 opened, Bracket',
  ],
  [{ kind: 'assign', body: { person: PIM, on: true, over: [] } }, 'Assigned: Pim Reed'],
  [{ kind: 'assign', body: { person: PIM, on: false, over: [] } }, 'No longer assigned: Pim Reed'],
  [{ kind: 'place', body: { place: 'Lift 2', over: [] } }, 'Moved to Lift 2'],
  [{ kind: 'pin', body: { methods: [DIGEST], over: [] } }, 'Pinned: Take off a bracket, 3'],
  [{ kind: 'close', body: { reason: '', over: [] } }, 'Job closed'],
  [{ kind: 'reopen', body: { reason: 'one photo more', over: [] } }, 'Job opened again: one photo more'],
  [{ kind: 'file', body: { heads: [], reason: 'a trial' } }, 'Filed, incomplete: a trial'],
  [{ kind: 'aside', body: { hashes: [RUN], code: 'revoked_device' } }, 'Set aside: 1, the device is revoked'],
  [{ kind: 'admit', body: { hashes: [RUN], reason: 'seen' } }, 'Admitted: 1, seen'],
  [
    { kind: 'accept', body: { code: 'two_values', at: [], hashes: [], reason: 'agreed' } },
    'Accepted: two values stand, agreed',
  ],
  [{ kind: 'send_back', body: { hashes: [RUN], remark: 'once more' } }, 'Sent back: Upper zone, once more'],
  [
    { kind: 'tick', body: { ...STEP, ask: '', value: 'done', reason: '', over: [] } },
    'Done: Measure the gap',
  ],
  [{ kind: 'text', body: { ...STEP, ask: '', point: '', value: 'dry', over: [] } }, 'dry, Measure the gap'],
  [
    { kind: 'choice', body: { ...STEP, ask: 'x', point: '', option: 'same', over: [] } },
    'same, Measure the gap, x',
  ],
  [
    {
      kind: 'reading',
      body: { ...STEP, ask: 'gap', point: '', value: 58, unit: 'mm', decimals: 1, over: [] },
    },
    '5.8 mm, Measure the gap, Gap',
  ],
  [
    {
      kind: 'photo',
      body: {
        ...STEP,
        slot: 'before',
        sha256: RUN,
        bytes: 1,
        type: 'image/png',
        width: 1,
        height: 1,
        thumb: RUN,
      },
    },
    'Photo: Measure the gap, Gap with gauge',
  ],
  [{ kind: 'tally', body: { position: 'H1', generation: 0, state: 'head_off' } }, 'Position H1: head off'],
  [
    { kind: 'tally', body: { position: 'H1', generation: 0, mark: 'lost', piece: 'shank', lost: '' } },
    'Lost inside: shank, position H1',
  ],
  [
    { kind: 'lot', body: { ...STEP, ask: 'c', material: 'cleaner', lot: 'A-77', expires_ms: 0 } },
    'Lot A-77, Measure the gap, c',
  ],
  [ON, 'Switched on, Upper zone, removal, pads U1, U2'],
  [{ kind: 'heat', body: { ...act, act: 'lift', pad: 'U1', text: '' } }, 'Pad U1 lifted, Upper zone'],
  [
    { kind: 'heat', body: { ...act, act: 'abort', pad: '', text: 'smoke' } },
    'Heat run aborted, Upper zone, smoke',
  ],
  [
    { kind: 'note', body: { ...STEP, text: 'bent flange', about: [] } },
    'Note: bent flange (Measure the gap)',
  ],
  [
    { kind: 'deviation', body: { ...STEP, text: 'bent flange', about: [], passes_hold: false } },
    'Deviation: bent flange (Measure the gap)',
  ],
  [{ kind: 'countersign', body: { ...STEP, ask: '', saw: [] } }, 'Countersigned: Measure the gap'],
  [{ kind: 'strike', body: { target: RUN, reason: 'wrong zone' } }, 'Struck: Upper zone, wrong zone'],
  [
    {
      kind: 'result',
      body: {
        ...STEP,
        ask: '',
        point: '',
        computation: 't',
        model: 'm',
        inputs: [],
        values: [],
        verdict: 'inside',
        over: [],
      },
    },
    'Worked out, inside, Measure the gap',
  ],
  [{ kind: 'clock', body: { what: 'stepped', jump_ms: 3_600_000 } }, 'Clock changed by 3 600 s'],
  [{ kind: 'heard', body: { run: RUN, moment: 'soaked', silent_s: 60 } }, 'Call heard, soaked, Upper zone'],
  [{ kind: 'condition', body: { condition: 'braced', holds: true, over: [] } }, 'Looked at, holds: braced'],
  [{ kind: 'condition', body: { condition: 'braced', holds: false, over: [] } }, 'Looked at, gone: braced'],
  [{ kind: 'later', body: { ...STEP, reason: 'no gauge here' } }, 'Put off: Measure the gap, no gauge here'],
]

const plain = (text: string): string => text.replaceAll(/[\u00a0\u202f]/g, ' ')

describe('the time line says', () => {
  test.each(SAID.map(([draft, said]) => [said, draft] as const))('%s', (said, draft) => {
    const made: readonly Made[] = [ON, { ...draft, by: ADA }]
    const log = logOf([...made, ...OPENED])
    const entry = log.items.at(1)?.entry
    if (entry === undefined) throw new Error('the log holds what was made')
    expect(plain(sayWhat(SHOP, whatOf(log, entry)).join(''))).toBe(said)
  })

  test('something of every kind that there is', () => {
    expect([...new Set(SAID.map(([draft]) => draft.kind))].sort()).toEqual(Object.keys(KINDS).sort())
  })
})

test.each([
  [0, 'never heard'],
  [NOON - 2000, 'just now'],
  [NOON - 59_000, '59 s ago'],
  [NOON - 8 * 60_000 - 20_000, '8 min ago'],
  [NOON - 10 * 86_400_000, '10 days ago'],
])('heard at %i is said as %s', (at_ms, said) => {
  expect(plain(ago(at_ms, NOON))).toBe(said)
})
