// What the phone decides by itself: a PIN, a picture's type and size, the calls of the look.
import { pbkdf2Sync } from 'node:crypto'
import { expect, test } from 'vitest'
import { CALLS, repeatOf } from '../../src/device/calls.ts'
import { checkPin } from '../../src/device/pin.ts'
import { fitted, typeOf } from '../../src/device/prepare_photo.ts'
import type { Person } from '../../src/store/types.ts'

const salt = '00112233445566778899aabbccddeeff'
const person = (pin: string): Person => ({
  ...{ id: 'p', name: 'Mara Ilves', roles: ['technician'], qualifications: [] },
  pin: {
    ...{ algorithm: 'PBKDF2-SHA256', iterations: 1_000, salt },
    verifier: pbkdf2Sync(pin, Buffer.from(salt, 'hex'), 1_000, 32, 'sha256').toString('hex'),
  },
})

test('the right PIN is known without the office, a wrong one is not', async () => {
  expect(await checkPin(person('4711'), '4711')).toBe(true)
  expect(await checkPin(person('4711'), '4712')).toBe(false)
})

test('nobody is known by a PIN who has none', async () => {
  const { pin: _, ...without } = person('4711')
  expect(await checkPin(without, '')).toBe(false)
})

test.each([
  [[0xff, 0xd8, 0xff, 0xe1], 'image/jpeg'],
  [[0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a], 'image/png'],
  [[0x3c, 0x68, 0x74, 0x6d, 0x6c], undefined],
  [[], undefined],
])('a picture is told by its first bytes %j', (bytes, type) => {
  expect(typeOf(new Uint8Array(bytes).buffer)).toBe(type)
})

test.each([
  [{ width: 4_000, height: 3_000 }, 320, { width: 320, height: 240 }],
  [{ width: 100, height: 80 }, 320, { width: 100, height: 80 }],
  [{ width: 5_000, height: 2 }, 320, { width: 320, height: 1 }],
])('%j fits an edge of %i as %j', (size, edge, fits) => {
  expect(fitted(size, edge)).toEqual(fits)
})

test('rising calls ask for something, the falling one warns of a limit crossed', () => {
  for (const call of ['one_min', 'due', 'overdue'] as const) {
    expect([...CALLS[call].notes].sort((a, b) => a - b)).toEqual(CALLS[call].notes)
  }
  expect(CALLS.over_maximum.notes).toEqual([1568, 784])
  expect(repeatOf('due')).toBe(2_000)
  expect(repeatOf('recorded')).toBe(0)
})
