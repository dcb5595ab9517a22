// One operation of the API: who may call it, what it takes, what it answers, how it refuses.
import type { JSX } from 'preact'
import type { ApiAnswer, Operation } from '../../core/views/api_document.ts'
import { holds, api as words } from '../words/office_en_api.ts'
import { FieldList } from './api_fields.tsx'

export function OperationRow({ operation }: { operation: Operation }): JSX.Element {
  const { method, path, says, callers } = operation
  return (
    <details class="o-api-one" id={operation.id}>
      <summary>
        <span class="o-api-name">
          <strong>{method}</strong> <code>{path}</code>
        </span>
        <span>{says}</span>
        <small>
          {words.mayCall}: {words.callers(callers)}
        </small>
      </summary>
      <Asked operation={operation} />
      <Body operation={operation} />
      {operation.answers.map((answer) => (
        <AnswerPart key={answer.status} answer={answer} />
      ))}
      <Refusals operation={operation} />
    </details>
  )
}

function Asked({ operation }: { operation: Operation }): JSX.Element | null {
  if (operation.asked.length === 0) return null
  return (
    <>
      <h3>{words.asked}</h3>
      <ul class="o-plain">
        {operation.asked.map((one) => (
          <li key={one.path}>
            <code>{one.path}</code> {words.at(one.at)}: {holds(one.schema)},{' '}
            {one.required ? words.needed : words.optional}
          </li>
        ))}
      </ul>
    </>
  )
}

function Body({ operation }: { operation: Operation }): JSX.Element | null {
  if (operation.media === '') return null
  if (operation.body.length === 0) return <h3>{words.rawBody(operation.media)}</h3>
  return (
    <>
      <h3>{words.body(operation.media)}</h3>
      <FieldList fields={operation.body} />
    </>
  )
}

function AnswerPart({ answer }: { answer: ApiAnswer }): JSX.Element {
  const name = words.answer(answer.status, answer.media)
  return (
    <>
      <h3>{name}</h3>
      {answer.fields.length > 0 && <FieldList fields={answer.fields} />}
      {answer.fields.length === 0 && answer.media === 'application/json' && (
        <p class="soft">{words.noFields}</p>
      )}
    </>
  )
}

function Refusals({ operation }: { operation: Operation }): JSX.Element | null {
  if (operation.refusals.length === 0) return null
  return (
    <>
      <h3>{words.refusals}</h3>
      <ul class="o-api-refusals">
        {operation.refusals.map((one) => (
          <li key={one.code}>
            <span class="num">{one.status}</span> <code>{one.code}</code>
          </li>
        ))}
      </ul>
    </>
  )
}
