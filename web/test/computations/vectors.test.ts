// Every shared vector of a step's computation, on the phone's side.
import { readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { answer, BOOK } from '../../src/core/computations/book.ts'
import type { Question } from '../../src/core/computations/question.ts'
import { type Answer, Refusal } from '../../src/core/computations/shapes.ts'
import { vectorsIn } from '../core/vector_files.ts'

const FOLDER = fileURLToPath(new URL('../../../tests/vectors/computations', import.meta.url))
const MAY = ['lines', 'said', 'groups', 'places', 'settings', 'facts', 'damaged', 'asked_at_ms', 'log']
const names = readdirSync(FOLDER, { withFileTypes: true })
  .filter((one) => one.isDirectory() && !['scenes', '__pycache__'].includes(one.name))
  .map((one) => one.name)

it('has vectors for every computation and no other', () => {
  expect(names.sort()).toEqual(Object.keys(BOOK).sort())
})

describe.each(names)('%s', (computation) => {
  const vectors = vectorsIn(
    `computations/${computation}`,
    ['about', 'source', 'inputs'],
    ['values', 'verdict', 'refused', ...MAY],
  )
  it.each(vectors.map((one) => [one.name, one.fields] as const))('%s', (_name, fields) => {
    const asked = { computation, ...fields } as unknown as Question
    if (fields.refused !== undefined) {
      expect(refusalOf(asked)).toEqual(fields.refused)
      return
    }
    const found = answer(asked)
    expect(found.values).toEqual(fields.values)
    expect(found.verdict).toBe(fields.verdict)
    if (fields.lines !== undefined) expect(codesOf(found)).toEqual(fields.lines)
    if (fields.said !== undefined) expect(saidOf(found)).toEqual(fields.said)
  })
})

function codesOf(found: Answer): readonly string[] {
  return found.lines.map((line) => line.code)
}

/** Each line in full: its code, what it is about, and its figures. */
function saidOf(found: Answer): readonly unknown[] {
  return found.lines.map(({ code, at, values }) => [code, ...at, ...values.map(({ value }) => value)])
}

function refusalOf(asked: Question): unknown {
  try {
    return answer(asked)
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return { field: error.field, code: error.code }
  }
}
