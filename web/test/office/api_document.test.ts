// The API's document as the page reads it: groups, flat fields, searched by any word.
import { expect, test } from 'vitest'
import { type ApiDocument, apiView, matches, type Schema } from '../../src/core/views/api_document.ts'
import { holds } from '../../src/ui/words/office_en_api.ts'

const text: Schema = { type: 'string' }
const answer = (name: string) => ({
  content: { 'application/json': { schema: { $ref: `#/components/schemas/${name}` } } },
})
const DOCUMENT: ApiDocument = {
  info: { title: 'Bayleaf', version: '1' },
  tags: [{ name: 'methods' }, { name: 'empty' }, { name: 'runs' }],
  paths: {
    '/api/methods/{digest}': {
      parameters: [{ in: 'path', name: 'digest', required: true, schema: text }],
      get: {
        tags: ['methods'],
        summary: 'One method.',
        'x-callers': 'signed_in',
        'x-refusals': [{ status: 404, code: 'unknown_method' }],
        responses: { 200: answer('Rows'), '4XX': answer('Refused') },
      },
    },
    '/api/runs': {
      post: {
        tags: ['runs'],
        summary: 'Write a run.',
        'x-callers': 'device',
        requestBody: { content: { 'application/json': { schema: { $ref: '#/components/schemas/Either' } } } },
        responses: { 204: { description: 'No Content' } },
      },
    },
  },
  components: {
    schemas: {
      Rows: {
        type: 'object',
        required: ['methods'],
        properties: { methods: { type: 'array', items: { $ref: '#/components/schemas/Row' } } },
      },
      Row: {
        type: 'object',
        required: ['digest'],
        properties: { digest: text, inner: { $ref: '#/components/schemas/Row' } },
      },
      Either: {
        oneOf: [{ $ref: '#/components/schemas/First' }, { $ref: '#/components/schemas/Second' }],
      },
      First: { properties: { a: text } },
      Second: { properties: { a: text } },
      Envelope: { properties: { kind: text, body: { type: 'object' } } },
      TickEntry: {
        properties: {
          kind: { type: 'string', enum: ['tick'] },
          body: { $ref: '#/components/schemas/First' },
        },
      },
    },
  },
}
const view = apiView(DOCUMENT)
const operations = view.groups.flatMap((group) => group.operations)

test('a group without operations is not shown', () => {
  expect(view.groups.map((group) => group.tag)).toEqual(['methods', 'runs'])
})

test('fields stand flat, each by its way in, and a shape within itself ends', () => {
  expect(operations[0]?.answers).toHaveLength(1)
  expect(operations[0]?.answers[0]?.fields.map((one) => [one.path, one.required])).toEqual([
    ['methods', true],
    ['methods[].digest', true],
    ['methods[].inner', false],
  ])
  expect(operations[0]?.asked.map((one) => [one.path, one.at])).toEqual([['digest', 'path']])
})

test('a body of one of several shapes names the shape of each field', () => {
  expect(operations[1]?.body.map((one) => [one.path, one.shape])).toEqual([
    ['a', 'First'],
    ['a', 'Second'],
  ])
})

test('kinds of entries are told with the fields of their bodies', () => {
  expect(view.kinds.map((kind) => [kind.kind, kind.fields.map((one) => one.path)])).toEqual([['tick', ['a']]])
})

test.each([
  ['unknown_method', [true, false]],
  ['POST run', [false, true]],
  ['digest 404', [true, false]],
  ['', [true, true]],
  ['no such word', [false, false]],
])('a search for "%s" finds what has all its words', (search, found) => {
  expect(operations.map((one) => matches(one, search))).toEqual(found)
})

test.each([
  [{ type: 'string', minLength: 1, maxLength: 200 }, 'text, 1 to 200 characters'],
  [{ type: 'string', minLength: 0, maxLength: 36 }, 'text, at most 36 characters'],
  [{ type: 'integer', minimum: 0, maximum: Number.MAX_SAFE_INTEGER }, 'whole number'],
  [{ type: 'string', enum: ['left', 'right'] }, 'one of left, right'],
  [{ type: 'array', items: { type: 'integer' }, minItems: 2, maxItems: 2 }, 'list of whole numbers, 2'],
  [{ type: 'object', additionalProperties: { type: 'string' } }, 'map to texts'],
  [{ type: 'boolean' }, 'true or false'],
] as const)('%j is said as "%s"', (schema, said) => {
  expect(holds(schema as Schema)).toBe(said)
})
