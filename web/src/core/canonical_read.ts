/** Canonical JSON read strictly: nothing that is written another way, or that a reader could take for something else. */
import {
  ASCII,
  dumps,
  type Json,
  type JsonObject,
  NotCanonical,
  type RefusalCode,
  stringFault,
} from './canonical.ts'

/** Longest text of one entry, in bytes of UTF-8. */
export const TEXT_BYTES_MAX = 65_536
const DEPTH_MAX = 64

/** Bytes that a text takes in UTF-8; half a surrogate pair counts as the three it would be written in. */
export function utf8Length(text: string): number {
  let bytes = 0
  for (const character of text) {
    const point = character.codePointAt(0) as number
    bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4
  }
  return bytes
}

/**
 * The object that a canonical text says. Throws `NotCanonical`; of several faults it tells the one whose code
 * stands first in: too_long, not_json, then the order of `PRECEDENCE`, wherever in the text it stands.
 */
export function parseStrict(text: string, bytesMax: number = TEXT_BYTES_MAX): JsonObject {
  if (utf8Length(text) > bytesMax) {
    throw new NotCanonical('too_long', `text: longer than the ${bytesMax} bytes allowed`)
  }
  const reader = new Reader(text)
  const value = reader.document()
  refuseFirst(reader.faults)
  if (typeof value !== 'object' || Array.isArray(value) || dumps(value) !== text) {
    throw new NotCanonical('not_canonical', 'text: not the canonical form (RFC 8785) of an object')
  }
  return value as JsonObject
}

const PRECEDENCE: readonly RefusalCode[] = [
  'duplicate_key',
  'unsafe_number',
  'lone_surrogate',
  'nul_character',
  'not_canonical',
]

function refuseFirst(faults: readonly NotCanonical[]): void {
  for (const code of PRECEDENCE) {
    const first = faults.find((fault) => fault.code === code)
    if (first !== undefined) throw first
  }
}

const SPACE = /[ \t\n\r]*/y
const WORD = /true|false|null/y
const NUMBER = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids bare control characters
const STRING = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y

/** Reads JSON and, unlike JSON.parse, sees a key that comes twice and a number that would be rounded. */
class Reader {
  readonly faults: NotCanonical[] = []
  private at = 0
  private depth = 0
  private readonly text: string
  private readonly path: string[] = []

  constructor(text: string) {
    this.text = text
  }

  document(): Json {
    this.take(SPACE)
    const value = this.value()
    this.take(SPACE)
    if (this.at < this.text.length) throw this.notJson('the end')
    return value
  }

  private value(): Json {
    const first = this.text[this.at]
    if (first === '{') return this.object()
    if (first === '[') return this.array()
    if (first === '"') return this.string()
    const word = this.take(WORD)
    if (word === undefined) return this.number()
    return word === 'null' ? this.report('not_canonical', 'null stands in no entry') : word === 'true'
  }

  private object(): JsonObject {
    const members = new Map<string, Json>()
    this.list('{', '}', () => {
      const key = this.string()
      if (members.has(key)) this.report('duplicate_key', 'this key stands twice in one object', key)
      if (!ASCII.test(key)) this.report('not_canonical', `the key ${JSON.stringify(key)} is not ASCII`)
      this.expect(':')
      members.set(key, this.inside(key))
    })
    return Object.fromEntries(members)
  }

  private array(): Json[] {
    const items: Json[] = []
    this.list('[', ']', () => items.push(this.inside(String(items.length))))
    return items
  }

  private list(open: string, close: string, item: () => void): void {
    this.depth += 1
    if (this.depth > DEPTH_MAX) throw this.notJson(`at most ${DEPTH_MAX} brackets inside each other`)
    this.expect(open)
    if (this.text[this.at] !== close) {
      item()
      while (this.next(',')) item()
    }
    if (this.text[this.at] !== close) throw this.notJson(JSON.stringify(close))
    this.at += 1
    this.depth -= 1
  }

  private inside(name: string): Json {
    this.path.push(name)
    const value = this.value()
    this.take(SPACE)
    this.path.pop()
    return value
  }

  private string(): string {
    const token = this.take(STRING)
    if (token === undefined) throw this.notJson('a string')
    this.take(SPACE)
    const value = JSON.parse(token) as string
    const fault = stringFault(value, this.path.join('.'))
    if (fault !== undefined) this.faults.push(fault)
    return value
  }

  private number(): Json {
    const token = this.take(NUMBER)
    if (token === undefined) throw this.notJson('a value')
    const value = Number(token)
    if (Number.isSafeInteger(value)) return value
    return this.report('unsafe_number', `${token.slice(0, 40)} is no integer between -(2^53-1) and 2^53-1`)
  }

  private next(mark: string): boolean {
    if (this.text[this.at] !== mark) return false
    this.at += 1
    this.take(SPACE)
    return true
  }

  private expect(mark: string): void {
    if (!this.next(mark)) throw this.notJson(JSON.stringify(mark))
  }

  private take(token: RegExp): string | undefined {
    token.lastIndex = this.at
    const found = token.exec(this.text)?.[0]
    this.at += found?.length ?? 0
    return found
  }

  private notJson(wanted: string): NotCanonical {
    return new NotCanonical('not_json', `text: not JSON, ${wanted} wanted at character ${this.at}`)
  }

  /** Notes a fault and reads on, with a value that stands for the faulty one. */
  private report(code: RefusalCode, what: string, ...key: string[]): Json {
    const field = [...this.path, ...key].join('.')
    this.faults.push(new NotCanonical(code, `${field || 'text'}: ${what}`, field))
    return false
  }
}
