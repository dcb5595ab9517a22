// What is said: numbers with their units, verdicts in words, entries in one line; and where a path leads.
import { describe, expect, it } from 'vitest'
import { verdictOf } from '../../src/core/views/limits.ts'
import { typedAfter } from '../../src/ui/parts/keypad.tsx'
import { cleaned } from '../../src/ui/parts/words_form.tsx'
import { endOfDay } from '../../src/ui/phone/printed_day.ts'
import { paths, routeOf } from '../../src/ui/phone/router.ts'
import { describe as inWords } from '../../src/ui/words/describe.ts'
import { bytes, count, countdown, duration, listed, quantity, scaled } from '../../src/ui/words/format.ts'
import { typedValue } from '../../src/ui/words/typed.ts'
import { verdictWords } from '../../src/ui/words/verdict.ts'
import { answer, cardNow, spinePhone } from './played.ts'

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ')

describe('numbers', () => {
  it.each([
    [35, 1, '3.5'],
    [-5, 1, '−0.5'],
    [4, 2, '0.04'],
    [1300, 0, '1 300'],
    [0, 3, '0.000'],
  ] as const)('%i at %i decimals reads %s', (value, decimals, text) => {
    expect(plain(scaled(value, decimals))).toBe(text)
  })

  it('stand with their unit as the trade prints it', () => {
    expect(plain(quantity(142, 0, 'C'))).toBe('142 °C')
    expect(plain(quantity(-12, 1, 'mm/m'))).toBe('−1.2 mm/m')
  })

  it.each([
    ['3.5', 1, 35],
    ['3', 1, 30],
    ['.5', 1, 5],
    ['-0.0', 1, 0],
    ['-2', 0, -2],
    ['3.55', 1, undefined],
    ['', 0, undefined],
    ['-', 0, undefined],
    ['.', 1, undefined],
  ] as const)('typed as "%s" at %i decimals are %s', (typed, decimals, value) => {
    expect(typedValue(typed, decimals)).toBe(value)
  })

  it('keep one point, and erase from the end', () => {
    expect(['1', '.', '.', '2', 'erase', '3', 'sign'].reduce(typedAfter, '')).toBe('-1.3')
  })

  it('count thousands apart and bytes in steps', () => {
    expect(plain(count(12_000))).toBe('12 000')
    expect(plain(bytes(3_100_000))).toBe('3.1 MB')
  })
})

describe('time', () => {
  it('counts down in minutes and seconds to 59:59, then in hours', () => {
    expect(countdown(712_000)).toBe('11:52')
    expect(countdown(-24_000)).toBe('0:24')
    expect(plain(countdown(4_320_000))).toBe('1 h 12')
  })

  it('is said in the unit that suits it', () => {
    expect(plain(duration(90_000))).toBe('90 s')
    expect(plain(duration(1_500_000))).toBe('25 min')
  })

  it('lets a lot be good to the end of its last day', () => {
    expect(new Date(endOfDay('2026-11-25')).getDate()).toBe(25)
    expect(new Date(endOfDay('2026-11-25') + 1).getDate()).toBe(26)
    expect(endOfDay('')).toBe(0)
  })
})

describe('a verdict', () => {
  it.each([
    [118, '12 below the minimum'],
    [142, 'Within: 12 above the minimum'],
    [190, 'Within: 5 below the maximum'],
    [200, '5 above the maximum'],
  ] as const)('of %i is "%s"', (value, words) => {
    expect(verdictWords(verdictOf({ min: 130, max: 195 }, value), 0)).toBe(words)
  })

  it('is no more than within where only a minimum is set: nobody asks how far an odometer is above 0', () => {
    expect(verdictWords(verdictOf({ min: 0 }, 48_213), 0)).toBe('Within the limits')
    expect(verdictWords(verdictOf({ min: 285 }, 280), 2)).toBe('0.05 below the minimum')
  })

  it('says that no limits are set', () => {
    expect(verdictWords(verdictOf({}, 5), 0)).toBe('No limits set for this reading')
  })
})

describe('words', () => {
  it('are joined as a sentence joins them', () => {
    expect(listed(['a', 'b', 'm'])).toBe('a, b and m')
  })

  it('lose what cannot be recorded, and nothing else', () => {
    expect(cleaned(' a\u0000b\ud800c é 😀 ')).toBe('abc é 😀')
  })

  it('say of an entry what it is about and what it says', async () => {
    const fake = spinePhone()
    await answer(fake, 'spn-01')
    const card = await cardNow(fake)
    const lines = [...card.entries.values()].map((one) => plain(inWords(card, one.entry)))
    expect(lines).toContain('VIN read from the body: INV00000000000001')
    expect(lines).toContain('Odometer: 1 km')
    expect(lines).toContain('All keys in the job box: done')
  })
})

describe('a path', () => {
  it.each([
    [paths.jobs, { at: 'jobs' }],
    [paths.card('j'), { at: 'card', job: 'j' }],
    [paths.ask('j', 'm', 's', 'a'), { at: 'ask', job: 'j', method: 'm', step: 's', ask: 'a', point: '' }],
    [
      paths.ask('j', 'm', 's', 'a', 'g5'),
      { at: 'ask', job: 'j', method: 'm', step: 's', ask: 'a', point: 'g5' },
    ],
    [paths.move('j', 'h'), { at: 'move', job: 'j', target: 'h' }],
    [paths.write('j', '', '', 'note'), { at: 'write', job: 'j', method: '', step: '', what: 'note' }],
    [paths.runReadings('j', 'h'), { at: 'run_readings', job: 'j', run: 'h' }],
    ['/job/j/step/m/s/write/nothing', { at: 'unknown' }],
    ['/elsewhere', { at: 'unknown' }],
  ] as const)('%s leads to its screen', (path, route) => {
    expect(routeOf(path)).toEqual(route)
  })
})
