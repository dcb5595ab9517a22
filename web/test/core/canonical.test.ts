// What canonical form promises beyond the vectors: laws over any value, and what the keypad lets through.
import { array, assert, dictionary, integer, letrec, oneof, property, string } from 'fast-check'
import { describe, expect, test } from 'vitest'
import { clean, dumps, type Json, NotCanonical } from '../../src/core/canonical.ts'
import { parseStrict, utf8Length } from '../../src/core/canonical_read.ts'

const anyText = string({ unit: 'binary' }).map(clean)
const { object } = letrec<{ object: Json; value: Json; list: Json[] }>((tie) => ({
  object: dictionary(string({ unit: 'binary-ascii' }).map(clean), tie('value')),
  list: array(tie('value')),
  value: oneof(anyText, integer(), tie('list'), tie('object')),
}))

describe('canonical form', () => {
  test('what was written is read back as it was', () => {
    assert(
      property(object, (value) => {
        expect(parseStrict(dumps(value))).toEqual(value)
      }),
    )
  })

  test('keys stand in the order of their code units, whatever the order in which they were set', () => {
    expect(dumps({ b: 1, a: 2, B: 3, '10': 4, '9': 5 })).toBe('{"10":4,"9":5,"B":3,"a":2,"b":1}')
  })

  test.each([
    ['unsafe_number', { a: 0.5 }],
    ['unsafe_number', { a: 2 ** 53 }],
    ['nul_character', { a: '\u0000' }],
    ['lone_surrogate', { a: '\ud800' }],
    ['not_canonical', { é: 1 }],
  ])('a value that has no canonical form is not written: %s %j', (code, value) => {
    expect(() => dumps(value)).toThrow(expect.objectContaining({ code }))
  })

  test('a fault names the field that it stands in', () => {
    expect(() => parseStrict('{"body":{"points":[[0,1.5]]}}')).toThrow(
      expect.objectContaining({ code: 'unsafe_number', field: 'body.points.0.1' }),
    )
  })

  test('no text makes the reader throw anything but its own refusal', () => {
    assert(
      property(string({ unit: 'binary' }), (text) => {
        try {
          parseStrict(text)
        } catch (error) {
          expect(error).toBeInstanceOf(NotCanonical)
        }
      }),
    )
  })
})

describe('the keypad', () => {
  test('keeps pairs, replaces half a pair, drops U+0000', () => {
    expect(clean('a\u0000b \ud83d\ude00 \ud83d!')).toBe('ab \ud83d\ude00 \ufffd!')
  })

  test('gives nothing that a record may not hold', () => {
    assert(
      property(string({ unit: 'binary' }), (typed) => {
        expect(() => dumps(clean(typed))).not.toThrow()
      }),
    )
  })
})

test('bytes are counted as UTF-8 writes them', () => {
  assert(
    property(anyText, (text) => {
      expect(utf8Length(text)).toBe(new TextEncoder().encode(text).length)
    }),
  )
})
