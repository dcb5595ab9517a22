// The check digit of VINs on the screen, held to the cases that the server's computation is held to.
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { checkVin, type VinCheck } from '../../src/core/views/vin.ts'

type Case = {
  readonly id: string
  readonly inputs: Readonly<Record<string, string>>
  readonly expected: Readonly<Record<string, unknown>>
}

const file = new URL('../../../tests/reference/fastening_cases.json', import.meta.url)
const every = JSON.parse(readFileSync(file, 'utf8')) as { cases: readonly Case[] }
const CASES = every.cases.filter(({ id }) => id.startsWith('vin-'))

function typedOf({ vin, characters_1_to_8, characters_10_to_17 }: Case['inputs']): string {
  return vin ?? `${characters_1_to_8}0${characters_10_to_17}`
}

function told(check: VinCheck): Readonly<Record<string, unknown>> {
  return {
    well_formed: check.wellFormed,
    weighted_sum: check.weightedSum,
    check_digit: check.digit,
    check_digit_right: check.digitRight,
    vin_stored: check.stored,
    refused: false,
    remark: check.remarks.length > 0,
  }
}

test('the published and worked-out cases are all here', () => {
  expect(CASES.length).toBeGreaterThan(20)
})

test.each(CASES.map((one) => [one.id, one] as const))('%s', (_, one) => {
  expect(told(checkVin(typedOf(one.inputs)))).toMatchObject(one.expected)
})

describe('a wrong digit at place 9', () => {
  test('is a doubt where the VIN begins as North American ones do', () => {
    expect(checkVin('1BAYLEAF0T0000001').remarks[0]?.code).toBe('digit_wrong')
  })

  test('is free elsewhere, and said with what it would be', () => {
    expect(checkVin('0BAYLEAF3T0000001').remarks).toEqual([{ code: 'digit_free', found: '3', digit: '2' }])
  })
})

test('what never occurs is named with its place and what may be meant', () => {
  expect(checkVin('0BAYLEAF2T00O0001').remarks).toEqual([
    { code: 'never', place: 13, found: 'O', meant: '0' },
  ])
  expect(checkVin('0BAYLEAF-T0000001').remarks).toEqual([{ code: 'no_letter', place: 9, found: '-' }])
  expect(checkVin('ß0BAYLEAF0T00000').wellFormed).toBe(false)
})
