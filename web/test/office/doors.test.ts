// The doors' small rules: what was typed as a code, which screen an address shows, what a person's form sends.
import { describe, expect, test } from 'vitest'
import { cleanCode, shownCode, strangeLetters } from '../../src/ui/door/pair_code.ts'
import { changeOf } from '../../src/ui/office/person_change.ts'
import { linkTo, screenOf } from '../../src/ui/office/place.ts'

describe('a typed code', () => {
  test('is taken with blanks, dashes and small letters', () => {
    expect(cleanCode('k7wm-2xqp ')).toBe('K7WM2XQP')
  })
  test('is shown in two groups of four', () => {
    expect(shownCode('k7wm2')).toBe('K7WM 2')
    expect(shownCode('k7wm')).toBe('K7WM')
  })
  test('names the letters that no code has', () => {
    expect(strangeLetters('K0WMOO')).toEqual(['0', 'O'])
    expect(strangeLetters('K7WM2XQP')).toEqual([])
  })
})

describe('an address', () => {
  test.each([
    [linkTo.board, 'board'],
    [`${linkTo.board}/`, 'board'],
    [linkTo.new, 'new'],
    [linkTo.job('j'), 'job'],
    [linkTo.method('d'), 'method'],
    [linkTo.methods, 'methods'],
    [linkTo.guide, 'guide'],
    [linkTo.instruments, 'instruments'],
    [linkTo.lots, 'lots'],
    [linkTo.materials, 'materials'],
    [linkTo.api, 'api'],
    ['/office/elsewhere', 'nowhere'],
    ['/office/people/x', 'nowhere'],
  ])('%s shows %s', (path, at) => {
    expect(screenOf(path).at).toBe(at)
  })
})

test('a form of a person leaves out the PIN and password that were not typed', () => {
  const typed = {
    name: ' Mara Ilves ',
    roles: ['technician'],
    qualifications: 'bonder, high_voltage bonder',
    pin: '',
    password: '',
  }
  expect(changeOf(typed)).toEqual({
    name: 'Mara Ilves',
    roles: ['technician'],
    qualifications: ['bonder', 'high_voltage'],
  })
  expect(changeOf({ ...typed, pin: '2580' })).toMatchObject({ pin: '2580' })
})
