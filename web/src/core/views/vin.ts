/** The check digit of a VIN (49 CFR 565.15(c), tables III and IV): remarks for a person, never a refusal. */

export type VinRemark =
  | { readonly code: 'length'; readonly found: number }
  | { readonly code: 'never'; readonly place: number; readonly found: string; readonly meant: string }
  | { readonly code: 'no_letter'; readonly place: number; readonly found: string }
  | { readonly code: 'digit_right' }
  | { readonly code: 'digit_wrong' | 'digit_free'; readonly found: string; readonly digit: string }

export type VinCheck = {
  readonly stored: string
  readonly wellFormed: boolean
  readonly weightedSum?: number
  readonly digit?: string
  readonly digitRight?: boolean
  readonly remarks: readonly VinRemark[]
}

const LENGTH = 17
const CHECK_AT = 8
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2] as const
const LETTERS = 'ABCDEFGH.JKLMN.P.R.STUVWXYZ'
const MEANT: Readonly<Record<string, string>> = { I: '1', O: '0', Q: '0' }
/** First characters of North America by ISO 3780, from memory: there the digit is asked for. */
const NORTH_AMERICA = /^[1-5]/

const isLetterOfVins = (one: string): boolean => one !== '.' && LETTERS.includes(one)

/** A digit is worth itself; letters count 1 to 9 in three rows, the last of which begins at 2. */
function worthOf(one: string): number {
  return /\d/.test(one) ? Number(one) : (LETTERS.indexOf(one) % 9) + 1
}

function remarkAt(one: string, at: number): readonly VinRemark[] {
  const place = at + 1
  const meant = MEANT[one]
  if (meant !== undefined) return [{ code: 'never', place, found: one, meant }]
  return /\d/.test(one) || isLetterOfVins(one) ? [] : [{ code: 'no_letter', place, found: one }]
}

function formRemarks(vin: string): readonly VinRemark[] {
  const length: readonly VinRemark[] = vin.length === LENGTH ? [] : [{ code: 'length', found: vin.length }]
  return [...length, ...[...vin].flatMap(remarkAt)]
}

function digitRemark(vin: string, digit: string): VinRemark {
  const found = vin[CHECK_AT] ?? ''
  if (found === digit) return { code: 'digit_right' }
  return { code: NORTH_AMERICA.test(vin) ? 'digit_wrong' : 'digit_free', found, digit }
}

/** Only plain letters: others may become two, or look like another. */
const tidied = (typed: string): string => typed.trim().replace(/[a-z]/g, (one) => one.toUpperCase())

/** Tidies case and outer blanks and says what it sees; takes every text. */
export function checkVin(typed: string): VinCheck {
  const stored = tidied(typed)
  const faults = formRemarks(stored)
  if (faults.length > 0) return { stored, wellFormed: false, remarks: faults }
  const weightedSum = WEIGHTS.reduce<number>((sum, weight, at) => sum + weight * worthOf(stored[at] ?? ''), 0)
  const digit = '0123456789X'[weightedSum % 11] ?? ''
  return {
    stored,
    wellFormed: true,
    weightedSum,
    digit,
    digitRight: stored[CHECK_AT] === digit,
    remarks: [digitRemark(stored, digit)],
  }
}
