// Prints the TypeScript of the schemas that come in as JSON: the phone's types are the server's own.
import { text } from 'node:stream/consumers'
import { compile, type JSONSchema } from 'json-schema-to-typescript'

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json }

const BANNER = '/** Made from the OpenAPI document by `python tests/harness/wire_types.py`: never by hand. */'
// A type knows no pattern and no bound; the parser judges these.
const LEFT_OUT = ['pattern', 'minLength', 'maxLength', 'minimum', 'maximum', 'minItems', 'maxItems', 'format']

function isObject(value: Json): value is { readonly [key: string]: Json } {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** The schema as a type sees it: one allowed number is a literal, a list of one length a tuple. */
function bare(schema: Json): Json {
  if (Array.isArray(schema)) return schema.map(bare)
  if (!isObject(schema)) return schema
  const kept = Object.entries(schema).filter(([key]) => !LEFT_OUT.includes(key))
  return {
    ...Object.fromEntries(kept.map(([key, inner]) => [key, bareMember(key, inner)])),
    ...exact(schema),
  }
}

function bareMember(key: string, inner: Json): Json {
  if (key === '$ref') return String(inner).replace('#/components/schemas/', '#/definitions/')
  if (key === 'items') return undescribed(bare(inner))
  if (key !== 'properties' || !isObject(inner)) return bare(inner)
  return Object.fromEntries(Object.entries(inner).map(([name, one]) => [name, undescribed(bare(one))]))
}

function exact({ minimum, maximum, minItems, maxItems }: { readonly [key: string]: Json }): object {
  if (minimum !== undefined && minimum === maximum) return { enum: [minimum] }
  return minItems !== undefined && minItems === maxItems ? { minItems, maxItems } : {}
}

/** What is said of a single value ("64 lower-case hex digits") would be most of the file. */
function undescribed(schema: Json): Json {
  if (!isObject(schema)) return schema
  const { description: _, ...rest } = schema
  return rest
}

const definitions = bare(JSON.parse(await text(process.stdin)) as Json)
const entry = { $ref: '#/definitions/Entry', definitions } as JSONSchema
process.stdout.write(
  await compile(entry, 'Entry', {
    additionalProperties: false,
    bannerComment: BANNER,
    unknownAny: true,
    unreachableDefinitions: true,
    style: { semi: false, singleQuote: true, printWidth: 110 },
  }),
)
