/** Canonical JSON (RFC 8785 kept easy), as it is written; `canonical_read.ts` reads it. Imports nothing. */

export type Json = string | number | boolean | readonly Json[] | { readonly [key: string]: Json }
export type JsonObject = { readonly [key: string]: Json }

export type RefusalCode =
  | 'not_json'
  | 'duplicate_key'
  | 'unsafe_number'
  | 'lone_surrogate'
  | 'nul_character'
  | 'not_canonical'
  | 'too_long'

/** Why a text is not a canonical one: a code that never changes, a sentence, and the field if known. */
export class NotCanonical extends Error {
  readonly code: RefusalCode
  readonly field: string

  constructor(code: RefusalCode, message: string, field = '') {
    super(message)
    this.name = 'NotCanonical'
    this.code = code
    this.field = field
  }
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: all of ASCII is meant
export const ASCII = /^[\u0000-\u007f]*$/
const LONE_SURROGATE = /\p{Surrogate}/u

/** The canonical text of a value. Throws `NotCanonical` for what has no canonical form. */
export function dumps(value: Json): string {
  if (typeof value === 'string') return stringText(value)
  if (typeof value === 'number') return numberText(value)
  if (typeof value === 'boolean') return value ? 'true' : 'false'
  if (typeof value !== 'object' || value === null) {
    throw new NotCanonical('not_canonical', `${value} has no canonical form`)
  }
  if (Array.isArray(value)) return `[${value.map(dumps).join(',')}]`
  return objectText(value as JsonObject)
}

function objectText(value: JsonObject): string {
  const members = Object.keys(value)
    .sort()
    .map((key) => `${keyText(key)}:${dumps(value[key] as Json)}`)
  return `{${members.join(',')}}`
}

function keyText(key: string): string {
  if (!ASCII.test(key)) throw new NotCanonical('not_canonical', `the key ${JSON.stringify(key)} is not ASCII`)
  return stringText(key)
}

function stringText(value: string): string {
  const fault = stringFault(value, '')
  if (fault !== undefined) throw fault
  return JSON.stringify(value)
}

function numberText(value: number): string {
  if (Number.isSafeInteger(value)) return String(value)
  throw new NotCanonical('unsafe_number', `${value} is no integer between -(2^53-1) and 2^53-1`)
}

export function stringFault(value: string, field: string): NotCanonical | undefined {
  if (LONE_SURROGATE.test(value)) {
    return new NotCanonical('lone_surrogate', `${field || 'text'}: holds half a surrogate pair`, field)
  }
  if (!value.includes('\u0000')) return undefined
  return new NotCanonical('nul_character', `${field || 'text'}: holds U+0000, which no text may`, field)
}

/** What a keypad gave, without what no record may hold: lone surrogates become U+FFFD, U+0000 goes. */
export function clean(typed: string): string {
  return typed.replaceAll('\u0000', '').replace(/\p{Surrogate}/gu, '\ufffd')
}
