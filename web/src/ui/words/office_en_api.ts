// Words of the page that shows the API's own document.
import type { Schema } from '../../core/views/api_document.ts'
import { count, plural } from './format.ts'

const GROUPS: { readonly [tag: string]: string } = {
  about: 'The server itself',
  doors: 'Doors: sign in, pair, renew',
  people: 'People',
  devices: 'Devices',
  methods: 'Methods and the bundle for phones',
  method_files: 'Method files: check, read, where pinned',
  jobs: 'Jobs',
  filed: 'Filing and the filed',
  reports: 'Reports',
  sync: 'Sync of phones',
  entries: 'Entries of a job',
  photos: 'Photos',
  handin: 'Hand-in',
  demo: 'The demo’s own',
  stock: 'Instruments and lots',
  materials: 'Materials as shipped',
  sheets: 'Suppliers’ sheets',
  papers: 'Papers of the maker',
  push: 'Calls to phones',
  time_zone: 'The shop’s time zone',
  heat_zones: 'Heat zones',
  heat_plans: 'Heat plans and response sets',
  readings_files: 'Readings of loggers, as files',
  readings_keys: 'Keys of loggers',
  readings_verdict: 'Verdicts of heat runs',
}

const CALLERS: { readonly [callers: string]: string } = {
  everyone: 'anybody',
  waiting: 'a device that is paired, or waits to be',
  device: 'a paired phone',
  office: 'the office, signed in',
  signed_in: 'a paired phone, or the office',
  demo: 'the demo alone',
}

const AT: { readonly [at: string]: string } = {
  path: 'in the path',
  query: 'in the query',
  header: 'in a header',
}

export const api = {
  title: 'The API',
  intro:
    'What this server’s own screens ask it, and what any other program may. It is made from the routes themselves, so it is of this very version.',
  file: 'The document (OpenAPI 3.1, JSON)',
  version: (version: string) => `version ${version}`,
  search: 'Search',
  searchNote: 'Path, field, refusal code, who may call.',
  print: 'Print',
  openAll: 'Open all',
  closeAll: 'Close all',
  found: (n: number, all: number) =>
    n === all
      ? `${count(all)} operations`
      : `${count(n)} of ${count(all)} ${plural(all, 'operation', 'operations')}`,
  nothing: 'No operation has all of these words.',
  nothingNext: 'Try fewer, or a part of a path.',
  group: (tag: string) => GROUPS[tag] ?? tag,
  groups: 'Groups',
  mayCall: 'May call',
  callers: (callers: string) => CALLERS[callers] ?? callers,
  at: (at: string) => AT[at] ?? at,
  asked: 'Asked for in the address',
  body: (media: string) => `Body, ${media}`,
  rawBody: (media: string) => `Body: the bytes, ${media}`,
  answer: (status: string, media: string) => `Answer ${status}${media === '' ? ', no body' : `, ${media}`}`,
  noFields: 'No fields are told of it.',
  refusals: 'Refuses with',
  refusalShape:
    'Every refusal is JSON: a code that never changes, a message for whoever can mend it, and the field at fault, or empty.',
  needed: 'needed',
  optional: 'may be left out',
  shape: (shape: string) => `in the shape ${shape}`,
  envelope: 'Every entry',
  kinds: 'Kinds of entries',
  kindsNote: 'What stands in `body` of an entry, by its kind. Kinds grow; they never change.',
  noBody: 'Its body is empty.',
  operation: (method: string, path: string) => `${method} ${path}`,
}

const range = (low: number | undefined, high: number | undefined, unit: string): string => {
  const top = high !== undefined && high < Number.MAX_SAFE_INTEGER ? high : undefined
  const tail = unit === '' ? '' : ` ${unit}`
  if (low && top !== undefined)
    return low === top ? `${count(low)}${tail}` : `${count(low)} to ${count(top)}${tail}`
  if (top !== undefined) return `at most ${count(top)}${tail}`
  return low === undefined || low === 0 ? '' : `at least ${count(low)}${tail}`
}

const withRange = (name: string, told: string): string => (told === '' ? name : `${name}, ${told}`)

/** What a field holds, in words. */
export function holds(schema: Schema): string {
  if (schema.enum) return `one of ${schema.enum.join(', ')}`
  switch (schema.type) {
    case 'string':
      return withRange('text', range(schema.minLength, schema.maxLength, 'characters'))
    case 'integer':
      return withRange('whole number', range(schema.minimum, schema.maximum, ''))
    case 'number':
      return withRange('number', range(schema.minimum, schema.maximum, ''))
    case 'boolean':
      return 'true or false'
    case 'array':
      return withRange(`list of ${many(schema.items)}`, range(schema.minItems, schema.maxItems, ''))
    case 'object':
      return typeof schema.additionalProperties === 'object' && schema.properties === undefined
        ? `map to ${many(schema.additionalProperties)}`
        : 'object'
    default:
      return schema.oneOf ? 'one of several shapes' : 'anything'
  }
}

function many(schema: Schema | undefined): string {
  if (schema === undefined || Object.keys(schema).length === 0) return 'anything'
  if (schema.$ref) return 'objects'
  if (schema.type === 'string') return schema.description ? `texts (${schema.description})` : 'texts'
  return (
    { integer: 'whole numbers', number: 'numbers', boolean: 'true or false', array: 'lists' }[
      schema.type ?? ''
    ] ?? 'objects'
  )
}
