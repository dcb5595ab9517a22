/** The API's own OpenAPI document as a page reads it: groups of operations, their fields written out flat. */

/** As much of a schema as our own document uses. */
export type Schema = {
  readonly $ref?: string
  readonly type?: string
  readonly description?: string
  readonly enum?: readonly string[]
  readonly oneOf?: readonly Schema[]
  readonly properties?: { readonly [name: string]: Schema }
  readonly required?: readonly string[]
  readonly items?: Schema
  readonly additionalProperties?: boolean | Schema
  readonly minimum?: number
  readonly maximum?: number
  readonly minLength?: number
  readonly maxLength?: number
  readonly minItems?: number
  readonly maxItems?: number
  readonly pattern?: string
  readonly default?: unknown
}
type Content = { readonly [media: string]: { readonly schema?: Schema } }
type Parameter = {
  readonly in: string
  readonly name: string
  readonly required?: boolean
  readonly schema?: Schema
}
type RawOperation = {
  readonly summary?: string
  readonly description?: string
  readonly tags?: readonly string[]
  readonly 'x-callers'?: string
  readonly 'x-refusals'?: readonly Refusal[]
  readonly parameters?: readonly Parameter[]
  readonly requestBody?: { readonly content: Content }
  readonly responses: {
    readonly [status: string]: { readonly description?: string; readonly content?: Content }
  }
}
export type ApiDocument = {
  readonly info: { readonly title: string; readonly version: string }
  readonly tags?: readonly { readonly name: string }[]
  readonly paths: { readonly [path: string]: { readonly [method: string]: unknown } }
  readonly components: { readonly schemas: { readonly [name: string]: Schema } }
}

export type Refusal = { readonly code: string; readonly status: number }
/** One row of a body or answer: `path` is where it stands, such as `methods[].digest`. */
export type FieldRow = {
  readonly path: string
  readonly required: boolean
  readonly schema: Schema
  /** It is one of several shapes: which of them, by name. */
  readonly shape: string
}
export type ApiAnswer = {
  readonly status: string
  readonly media: string
  readonly fields: readonly FieldRow[]
}
export type Operation = {
  readonly id: string
  readonly method: string
  readonly path: string
  readonly group: string
  readonly says: string
  readonly callers: string
  readonly asked: readonly (FieldRow & { readonly at: string })[]
  readonly media: string
  readonly body: readonly FieldRow[]
  readonly answers: readonly ApiAnswer[]
  readonly refusals: readonly Refusal[]
}
export type EntryKind = { readonly kind: string; readonly fields: readonly FieldRow[] }
export type ApiGroup = { readonly tag: string; readonly operations: readonly Operation[] }
export type ApiView = {
  readonly version: string
  readonly groups: readonly ApiGroup[]
  readonly envelope: readonly FieldRow[]
  readonly kinds: readonly EntryKind[]
}

const METHODS = ['get', 'post', 'put', 'patch', 'delete', 'head', 'options'] as const
const DEEPEST = 6
const SUCCESS = /^2/

export function apiView(document: ApiDocument): ApiView {
  const fields = fieldsOf(document.components.schemas)
  const operations = Object.entries(document.paths).flatMap(([path, item]) =>
    METHODS.flatMap((method) => {
      const raw = item[method] as RawOperation | undefined
      const shared = (item.parameters ?? []) as readonly Parameter[]
      return raw === undefined ? [] : [operationOf(fields, method, path, raw, shared)]
    }),
  )
  const tags = (document.tags ?? []).map((tag) => tag.name)
  return {
    version: document.info.version,
    groups: tags
      .map((tag) => ({ tag, operations: operations.filter((one) => one.group === tag) }))
      .filter((group) => group.operations.length > 0),
    envelope: fields(document.components.schemas.Envelope),
    kinds: kindsOf(document.components.schemas, fields),
  }
}

type Fields = (schema: Schema | undefined) => readonly FieldRow[]

function operationOf(
  fields: Fields,
  method: string,
  path: string,
  raw: RawOperation,
  shared: readonly Parameter[],
): Operation {
  const [media = '', content] = Object.entries(raw.requestBody?.content ?? {})[0] ?? []
  return {
    id: `${method}${path}`.replace(/[^a-z0-9]+/gi, '-').replace(/-$/, ''),
    method: method.toUpperCase(),
    path,
    group: raw.tags?.[0] ?? '',
    says: [raw.summary, raw.description].filter(Boolean).join(' '),
    callers: raw['x-callers'] ?? '',
    asked: [...shared, ...(raw.parameters ?? [])].map(parameterRow),
    media,
    body: fields(content?.schema),
    answers: answersOf(fields, raw),
    refusals: raw['x-refusals'] ?? [],
  }
}

const parameterRow = (one: Parameter): FieldRow & { readonly at: string } => ({
  path: one.name,
  at: one.in,
  required: one.required ?? false,
  schema: one.schema ?? {},
  shape: '',
})

/** What is refused has one shape everywhere; only what was asked for is told here. */
function answersOf(fields: Fields, raw: RawOperation): readonly ApiAnswer[] {
  return Object.entries(raw.responses)
    .filter(([status]) => SUCCESS.test(status))
    .map(([status, answer]) => {
      const [media = '', content] = Object.entries(answer.content ?? {})[0] ?? []
      return { status, media, fields: fields(content?.schema) }
    })
}

function kindsOf(schemas: ApiDocument['components']['schemas'], fields: Fields): readonly EntryKind[] {
  return Object.values(schemas).flatMap((schema) => {
    const [kind] = schema.properties?.kind?.enum ?? []
    return kind === undefined ? [] : [{ kind, fields: fields(schema.properties?.body) }]
  })
}

const nameOf = (schema: Schema): string => schema.$ref?.split('/').at(-1) ?? ''

function fieldsOf(schemas: ApiDocument['components']['schemas']): Fields {
  const resolve = (schema: Schema): Schema => (schema.$ref ? (schemas[nameOf(schema)] ?? {}) : schema)

  const shapeRows = (schema: Schema, path: string, shape: string, within: readonly string[]): FieldRow[] => {
    const name = nameOf(schema)
    if (within.length > DEEPEST || (name !== '' && within.includes(name))) return []
    const found = resolve(schema)
    const deeper = [...within, name]
    if (found.oneOf) return found.oneOf.flatMap((one) => shapeRows(one, path, nameOf(one) || shape, deeper))
    return Object.entries(found.properties ?? {}).flatMap(([member, inner]) =>
      memberRows(inner, path === '' ? member : `${path}.${member}`, found, member, shape, deeper),
    )
  }

  const memberRows = (
    schema: Schema,
    path: string,
    parent: Schema,
    member: string,
    shape: string,
    within: readonly string[],
  ): FieldRow[] => {
    const said = { ...resolve(schema), ...withoutRef(schema) }
    const row = { path, required: parent.required?.includes(member) ?? false, schema: said, shape }
    return [row, ...innerRows(schema, path, shape, within)]
  }

  /** What stands inside a list, a map or an object. */
  const innerRows = (schema: Schema, path: string, shape: string, within: readonly string[]): FieldRow[] => {
    const found = resolve(schema)
    if (found.items) return shapeRows(found.items, `${path}[]`, shape, within)
    if (typeof found.additionalProperties === 'object')
      return shapeRows(found.additionalProperties, `${path}{}`, shape, within)
    return shapeRows(schema, path, shape, within)
  }

  return (schema) => (schema === undefined ? [] : shapeRows(schema, '', '', []))
}

function withoutRef({ $ref: _ref, ...rest }: Schema): Schema {
  return rest
}

/** Every word of the search stands somewhere in what is told of the operation. */
export function matches(operation: Operation, search: string): boolean {
  const told = [
    operation.method,
    operation.path,
    operation.says,
    operation.group,
    operation.callers,
    ...operation.asked.map((one) => one.path),
    ...operation.body.map((one) => one.path),
    ...operation.answers.flatMap((answer) => answer.fields.map((one) => one.path)),
    ...operation.refusals.map((one) => `${one.code} ${one.status}`),
  ]
    .join(' ')
    .toLowerCase()
  return wordsOf(search).every((word) => told.includes(word))
}

export function kindMatches(kind: EntryKind, search: string): boolean {
  const told = [kind.kind, 'entry', ...kind.fields.map((one) => one.path)].join(' ')
  return wordsOf(search).every((word) => told.includes(word))
}

const wordsOf = (search: string): readonly string[] => search.toLowerCase().split(/\s+/).filter(Boolean)
