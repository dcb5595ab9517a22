// Fields of a body or an answer, flat: where each stands, whether it is needed, what it holds.
import type { JSX } from 'preact'
import type { FieldRow } from '../../core/views/api_document.ts'
import { holds, api as words } from '../words/office_en_api.ts'

export function FieldList({ fields }: { fields: readonly FieldRow[] }): JSX.Element {
  return (
    <dl class="o-api-fields">
      {fields.map((field) => (
        <div key={`${field.shape} ${field.path}`}>
          <dt>
            <code>{field.path}</code>
          </dt>
          <dd>
            {holds(field.schema)}
            {!field.required && <small class="o-inline"> · {words.optional}</small>}
            {field.schema.description && <small>{field.schema.description}</small>}
            {field.shape !== '' && <small>{words.shape(field.shape)}</small>}
          </dd>
        </div>
      ))}
    </dl>
  )
}
